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

from storage.schema.building import metadata
from storage.schema.post import (
    forecasts,
    handled,
    journal_changes,
    journal_entries,
    journal_numbers,
    pairing,
    parcels,
    rounds,
    taps,
)
from storage.schema.week import (
    JOURNALLED,
    blocks,
    categories,
    commitments,
    goals,
    jobs,
    people,
    routines,
    running,
    sections,
    stints,
    targets,
    tasks,
)

REVISIONS = ("0001",)
"""Every schema there has been, by the name of its migration; the last is what the tables look like now."""

__all__ = [
    "JOURNALLED",
    "REVISIONS",
    "blocks",
    "categories",
    "commitments",
    "forecasts",
    "goals",
    "handled",
    "jobs",
    "journal_changes",
    "journal_entries",
    "journal_numbers",
    "metadata",
    "pairing",
    "parcels",
    "people",
    "rounds",
    "routines",
    "running",
    "sections",
    "stints",
    "taps",
    "targets",
    "tasks",
]
