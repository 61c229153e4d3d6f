"""What belongs to no single person: handled deliveries, the pairing code, forecasts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from storage.database import Database
from storage.records import PairingCode, Person
from tests.storage.given import HOUR, NOW, GaveUpError, letter, still_owed, work


def test_a_delivery_is_handled_once_in_whatever_order_it_comes(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        assert desk.handled.first_time("telegram:update:9")
        assert not desk.handled.first_time("telegram:update:9")
    with database.desk(person.id, NOW) as desk:
        assert desk.handled.first_time("telegram:update:3")
        assert not desk.handled.first_time("telegram:update:9")


def test_a_delivery_whose_effects_were_not_kept_was_not_handled(database: Database, person: Person) -> None:
    with pytest.raises(GaveUpError):
        work(database, person, lambda desk: desk.handled.first_time("telegram:update:9"), give_up=True)
    with database.desk(person.id, NOW) as desk:
        assert desk.handled.first_time("telegram:update:9")


def test_a_strangers_delivery_is_handled_once_too(database: Database, person: Person) -> None:
    assert database.handled.first_time("telegram:update:9", NOW)
    assert not database.handled.first_time("telegram:update:9", NOW)
    with database.desk(person.id, NOW) as desk:
        assert not desk.handled.first_time("telegram:update:9")


def test_a_stranger_is_turned_away_once_a_while_and_each_delivery_is_handled_once(database: Database, person: Person) -> None:
    refusal = replace(letter("This bot is private.", "telegram:666"), person_id=None)
    for key, now in (("u1", NOW), ("u2", NOW + HOUR / 2), ("u2", NOW + 9 * HOUR), ("u3", NOW + HOUR)):
        database.handled.turn_away(key, replace(refusal, written=now), now, HOUR)
    owed = still_owed(database)
    assert [(parcel.person_id, parcel.address, parcel.written) for parcel in owed] == [
        (None, "telegram:666", NOW),
        (None, "telegram:666", NOW + HOUR),
    ]
    assert not database.handled.first_time("u2", NOW)
    with database.desk(person.id, NOW) as desk:
        assert desk.outbox.find(owed[0].id) is None


def test_old_keys_can_be_forgotten_by_age(database: Database) -> None:
    database.handled.first_time("old", NOW)
    database.handled.first_time("new", NOW + HOUR)
    assert database.handled.forget(NOW + HOUR) == 1
    assert database.handled.first_time("old", NOW + HOUR)
    assert not database.handled.first_time("new", NOW + HOUR)


def test_there_is_one_pairing_code_at_a_time(database: Database) -> None:
    first, second = PairingCode("hash 1", NOW, NOW + HOUR), PairingCode("hash 2", NOW, NOW + 2 * HOUR)
    assert database.pairing.current() is None
    database.pairing.replace(first)
    database.pairing.replace(second)
    database.pairing.note_try()
    database.pairing.note_try()
    assert database.pairing.current() == replace(second, tries=2)
    database.pairing.clear()
    database.pairing.note_try()
    assert database.pairing.current() is None


def test_the_newest_forecast_of_each_place_is_kept(database: Database, person: Person) -> None:
    assert database.forecasts.get("51.05,3.72") is None
    database.forecasts.put("51.05,3.72", NOW, '{"hourly":{}}')
    database.forecasts.put("51.05,3.72", NOW + HOUR, "{}")
    database.forecasts.put("0.00,0.00", NOW, "[]")
    assert database.forecasts.get("51.05,3.72") == (NOW + HOUR, "{}")
    with database.desk(person.id, NOW) as desk:
        assert desk.forecasts.get("0.00,0.00") == (NOW, "[]")
