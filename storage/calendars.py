"""The events of calendars, and when their links were read last."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import bindparam, select

from storage.connections import Connection
from storage.forms import CALENDAR_EVENTS
from storage.putting import Put
from storage.records import KeptEvent, Visit
from storage.schema import calendar_events, calendar_visits
from storage.shelf import Shelf

_BY_START = (calendar_events.c.starts,)
_BETWEEN = CALENDAR_EVENTS.mine(
    calendar_events.c.ends >= bindparam("start"),
    calendar_events.c.starts < bindparam("end"),
    order=_BY_START,
)
_OF = CALENDAR_EVENTS.mine(calendar_events.c.calendar_id == bindparam("calendar_id"), order=_BY_START)

_VISIT = select(calendar_visits.c.at, calendar_visits.c.reaches, calendar_visits.c.etag, calendar_visits.c.last_modified).where(
    calendar_visits.c.person_id == bindparam("person_id"), calendar_visits.c.calendar_id == bindparam("calendar_id")
)
_PUT = Put(calendar_visits)


class CalendarEvents(Shelf[KeptEvent]):
    """The events of the person's calendars, cancelled ones among them, earliest first."""

    def between(self, start: datetime, end: datetime) -> tuple[KeptEvent, ...]:
        """Those of all calendars that share a moment with [start, end), and those that end as it begins."""
        return self.many(_BETWEEN, start=start, end=end)

    def of(self, calendar_id: int) -> tuple[KeptEvent, ...]:
        """All of one calendar."""
        return self.many(_OF, calendar_id=calendar_id)


class Visits:
    """The latest visit to each calendar of one person. Not journalled: an undo takes back what was read, not that it was."""

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id

    def get(self, calendar_id: int) -> Visit | None:
        """The latest, or None."""
        found = self._connection.execute(_VISIT, {"person_id": self._person_id, "calendar_id": calendar_id}).first()
        return None if found is None else Visit(*found)

    def put(self, calendar_id: int, visit: Visit) -> None:
        """Keeps this visit in place of an earlier one."""
        row = {"at": visit.at, "reaches": visit.reaches, "etag": visit.etag, "last_modified": visit.last_modified}
        self._connection.execute(_PUT, {"person_id": self._person_id, "calendar_id": calendar_id, **row})
