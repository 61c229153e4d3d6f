"""The tables. Columns are named as the fields of the records that they keep.

What belongs to a person has the key (person_id, id), and names other rows by
that pair: the database itself keeps one person's rows from naming another's.
Rows numbered this way are handed their ids by the journal, which never gives
one twice, so that an old button cannot come to mean a new row.

Removing a person removes all of theirs. Every other reference is checked and
never cascades: a row that went or changed by itself could not be undone.
Enumerations have no CHECK, because the program's words grow; their type
guards them on the way in.
"""

from __future__ import annotations

from sqlalchemy import Table

from storage.schema.building import metadata
from storage.schema.calendars import CALENDARS, calendar_events, calendar_visits, calendars, marks, sent_files
from storage.schema.pay import PAY, handed_in, job_rates, jobs
from storage.schema.post import (
    erased,
    forecasts,
    handled,
    journal_changes,
    journal_entries,
    journal_numbers,
    pairing,
    parcels,
    rounds,
    silences,
    taps,
    told_weather,
)
from storage.schema.week import (
    WEEK,
    blocks,
    categories,
    commitments,
    goals,
    people,
    routines,
    running,
    sections,
    sick_days,
    stints,
    targets,
    tasks,
)

JOURNALLED: tuple[Table, ...] = (*WEEK, *PAY, *CALENDARS)
"""The tables whose every change is told by a journal entry and can be undone."""

NUMBERED: tuple[Table, ...] = tuple(each for each in metadata.sorted_tables if each.autoincrement_column is not None)
"""The tables that number their rows themselves."""

REVISIONS = ("0001", "0002", "0003", "0004", "0005", "0006", "0007", "0008", "0009", "0010", "0011", "0012", "0013", "0014")
"""Every schema there has been, by the name of its migration; the last is what the tables look like now."""

__all__ = [
    "JOURNALLED",
    "NUMBERED",
    "REVISIONS",
    "blocks",
    "calendar_events",
    "calendar_visits",
    "calendars",
    "categories",
    "commitments",
    "erased",
    "forecasts",
    "goals",
    "handed_in",
    "handled",
    "job_rates",
    "jobs",
    "journal_changes",
    "journal_entries",
    "journal_numbers",
    "marks",
    "metadata",
    "pairing",
    "parcels",
    "people",
    "rounds",
    "routines",
    "running",
    "sections",
    "sent_files",
    "sick_days",
    "silences",
    "stints",
    "taps",
    "targets",
    "tasks",
    "told_weather",
]
