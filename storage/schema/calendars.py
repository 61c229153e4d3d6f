"""The tables of calendars of others."""

from __future__ import annotations

from sqlalchemy import Index, Integer, LargeBinary, PrimaryKeyConstraint, Table, Text, UniqueConstraint

from storage.schema.building import check, may, metadata, must, names, of_person, shelf
from storage.types import Flag, LocalDay, UtcInstant

calendars = shelf("calendars", must("name", Text), may("link", Text), must("paused", Flag), check("name", "name <> ''"))

calendar_events = shelf(
    "calendar_events",
    must("calendar_id", Integer),
    must("uid", Text),
    must("recurrence", Text),
    must("title", Text),
    must("starts", UtcInstant),
    must("ends", UtcInstant),
    must("all_day", Flag),
    must("busy", Flag),
    must("cancelled", Flag),
    must("place", Text),
    names("calendar_id", "calendars"),
    UniqueConstraint("person_id", "calendar_id", "uid", "recurrence"),
    check("ends", "ends >= starts"),
    Index(None, "person_id", "ends"),
)

marks = shelf(
    "marks",
    must("words", Text),
    may("category_id", Integer),
    may("minor", Flag),
    may("outdoors", Flag),
    may("minutes_before", Integer),
    may("minutes_after", Integer),
    names("category_id", "categories"),
    check("words", "words <> ''"),
)

calendar_visits = Table(
    "calendar_visits",
    metadata,
    must("person_id", Integer),
    # No reference: a calendar that was taken back and brought back again was visited all the same.
    must("calendar_id", Integer),
    must("at", UtcInstant),
    must("reaches", LocalDay),
    may("etag", Text),
    may("last_modified", Text),
    PrimaryKeyConstraint("person_id", "calendar_id"),
    of_person(),
    sqlite_with_rowid=False,
)

sent_files = Table(
    "sent_files",
    metadata,
    must("person_id", Integer),
    must("key", Text),
    must("name", Text),
    must("content", LargeBinary),
    PrimaryKeyConstraint("person_id", "key"),
    of_person(),
)

CALENDARS: tuple[Table, ...] = (calendars, calendar_events, marks)
"""Those of them whose every change is told by a journal entry and can be undone."""
