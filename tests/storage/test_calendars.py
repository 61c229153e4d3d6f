"""Calendars of others: their events by time and by calendar, and the visits to their links."""

from __future__ import annotations

from dataclasses import replace

import pytest

from storage.database import Database
from storage.errors import Refused
from storage.records import Calendar, KeptEvent, Person, Visit
from tests.storage.given import HOUR, NOW, TUESDAY


def event(calendar_id: int, uid: str, hour: int) -> KeptEvent:
    return KeptEvent(0, calendar_id, uid, "", uid, NOW + hour * HOUR, NOW + (hour + 1) * HOUR)


def test_events_are_found_by_the_time_they_share_whichever_calendar_they_are_of(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        one, other = (desk.calendars.add(Calendar(0, name)) for name in ("Museum", "School"))
        late, early, before = (desk.calendar_events.add(event(*each)) for each in ((one.id, "b", 5), (other.id, "a", 2), (one.id, "c", -9)))
        desk.journal.write("Kept", "k1")
        assert desk.calendar_events.between(NOW, NOW + 5 * HOUR) == (early,)
        assert desk.calendar_events.between(NOW, NOW + 6 * HOUR) == (early, late)
        assert desk.calendar_events.of(one.id) == (before, late)


def test_one_calendar_tells_of_one_time_of_an_event_once(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        calendar = desk.calendars.add(Calendar(0, "Museum"))
        desk.calendar_events.add(event(calendar.id, "a", 1))
        with pytest.raises(Refused), desk.attempt():
            desk.calendar_events.add(event(calendar.id, "a", 2))
        desk.journal.write("Kept", "k1")


def test_only_the_latest_visit_is_kept_and_only_for_its_person(database: Database, person: Person, other: Person) -> None:
    first = Visit(NOW, TUESDAY, '"v1"')
    with database.desk(person.id, NOW) as desk:
        assert desk.visits.get(1) is None
        desk.visits.put(1, first)
        desk.visits.put(1, replace(first, at=NOW + HOUR, etag=None, last_modified="Mon"))
    with database.desk(other.id, NOW) as desk:
        assert desk.visits.get(1) is None
    with database.desk(person.id, NOW) as desk:
        assert desk.visits.get(1) == Visit(NOW + HOUR, TUESDAY, None, "Mon")
