"""Public holidays are known before anybody asks for them, and reading them holds up nobody."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from threading import Event, get_ident

import pytest

from bot.almanac import Almanac
from bot.holidays_read import Named
from bot.rounds.holidays_ahead import LOOKS_EVERY, HolidaysAhead
from storage.database import Database
from storage.records import Person
from tests.storage.given import NOW, admit

YEARS = [("BE", 2026), ("BE", 2027)]


class Told:
    """Knows one day of every year, and who asked for it in which thread; it answers once it may."""

    def __init__(self) -> None:
        self.asked: list[tuple[str, int]] = []
        self.threads: set[int] = set()
        self.may = Event()
        self.may.set()

    def __call__(self, country: str, year: int) -> Named:
        assert self.may.wait(10)
        self.asked.append((country, year))
        self.threads.add(get_ident())
        return ((date(year, 1, 1), "New Year's Day"),)


@pytest.fixture
def database(tmp_path: Path) -> Iterator[Database]:
    opened = Database(f"sqlite:///{tmp_path / 'week.db'}")
    yield opened
    opened.close()


def lives_in(database: Database, zone: str, address: str = "terminal:me", *, shown: bool = True) -> Person:
    """Someone new, in a zone."""
    person = admit(database, address)
    with database.desk(person.id, NOW) as desk:
        desk.people.change(replace(desk.person, zone=zone, holidays=shown))
        desk.journal.write("moved", None)
    return person


def test_this_year_and_the_next_of_every_country_are_learned_once_in_another_thread(database: Database) -> None:
    told = Told()
    for number, zone in enumerate(("Europe/Brussels", "Europe/Brussels", "UTC")):
        lives_in(database, zone, f"telegram:{number}")
    lives_in(database, "Europe/Paris", "telegram:3", shown=False)
    ahead = HolidaysAhead(database, Almanac(told))
    for after in (timedelta(0), LOOKS_EVERY, 2 * LOOKS_EVERY):
        asyncio.run(ahead.tick(NOW + after))
    assert told.asked == YEARS
    assert get_ident() not in told.threads


def test_a_new_country_is_learned_within_a_minute(database: Database) -> None:
    told = Told()
    lives_in(database, "Europe/Brussels")
    ahead = HolidaysAhead(database, Almanac(told))
    asyncio.run(ahead.tick(NOW))
    lives_in(database, "Asia/Tokyo", "telegram:7")
    asyncio.run(ahead.tick(NOW + LOOKS_EVERY / 2))
    assert told.asked == YEARS
    asyncio.run(ahead.tick(NOW + LOOKS_EVERY))
    assert told.asked == [*YEARS, ("JP", 2026), ("JP", 2027)]


def test_the_loop_goes_on_while_they_are_read(database: Database) -> None:
    told = Told()
    told.may.clear()
    lives_in(database, "Europe/Brussels")

    async def both() -> None:
        reading = asyncio.ensure_future(HolidaysAhead(database, Almanac(told)).tick(NOW))
        await asyncio.sleep(0.01)
        assert not reading.done()
        told.may.set()
        await reading

    asyncio.run(both())
    assert told.asked == YEARS
