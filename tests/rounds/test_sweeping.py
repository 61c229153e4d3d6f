"""Once a day what nobody needs any more is swept up, and nothing else."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from bot.rounds.sweeping import KEPT_FOR, Sweeping
from storage.database import Database
from tests.storage.given import NOW, admit, letter, still_owed


@pytest.fixture
def database(tmp_path: Path) -> Iterator[Database]:
    opened = Database(f"sqlite:///{tmp_path / 'week.db'}")
    yield opened
    opened.close()


def sweep(database: Database, *moments: datetime) -> None:
    sweeping = Sweeping(database)
    for moment in moments:
        asyncio.run(sweeping.tick(moment))


def test_old_keys_and_what_strangers_were_told_go_after_a_month(database: Database) -> None:
    person = admit(database, "terminal:me")
    with database.desk(person.id, NOW) as desk:
        desk.outbox.owe(letter("Kept for the person"))
    told = replace(letter("This bot belongs to someone else.", "telegram:7"), person_id=None)
    database.handled.turn_away("u1", told, NOW, timedelta(days=1))
    sweep(database, NOW + KEPT_FOR)
    assert not database.handled.first_time("u1", NOW + KEPT_FOR)
    assert len(still_owed(database)) == 2
    later = NOW + KEPT_FOR + timedelta(days=1)
    sweep(database, later)
    assert [parcel.person_id for parcel in still_owed(database)] == [person.id]
    assert database.handled.first_time("u1", later)


def test_it_is_done_once_a_day(database: Database) -> None:
    database.handled.first_time("u1", NOW - 2 * KEPT_FOR)
    sweeping = Sweeping(database)
    asyncio.run(sweeping.tick(NOW))
    database.handled.first_time("u2", NOW - 2 * KEPT_FOR)
    asyncio.run(sweeping.tick(NOW + timedelta(hours=1)))
    assert not database.handled.first_time("u2", NOW)
    asyncio.run(sweeping.tick(NOW + timedelta(days=1)))
    assert database.handled.first_time("u2", NOW)
