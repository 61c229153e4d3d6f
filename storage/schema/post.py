"""The tables of what happened, what is owed and what falls due. None of them is journalled."""

from __future__ import annotations

from sqlalchemy import (
    Column,
    Float,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    PrimaryKeyConstraint,
    Table,
    Text,
    UniqueConstraint,
)

from storage.records import Author, ParcelKind, ParcelState, RoundKind, RoundState
from storage.schema.building import check, may, metadata, must, names, numbered, of_person, some
from storage.types import BUTTON_ROWS, SPANS, Choice, Flag, LocalDay, UtcInstant

journal_entries = numbered(
    "journal_entries",
    must("at", UtcInstant),
    must("summary", Text),
    may("heard_key", Text),
    may("undone_by", Integer),
    may("undoes", Integer),
    may("replaces", Integer),
    must("by", Choice(Author)),
    UniqueConstraint("person_id", "id"),
    names("undone_by", "journal_entries"),
    names("undoes", "journal_entries"),
    names("replaces", "journal_entries"),
    Index(None, "person_id", "heard_key"),
)

journal_changes = Table(
    "journal_changes",
    metadata,
    must("entry_id", Integer, autoincrement=False),
    must("step", Integer, autoincrement=False),
    must("person_id", Integer),
    must("table", Text),
    must("row_id", Integer),
    may("before", Text),
    may("after", Text),
    PrimaryKeyConstraint("entry_id", "step"),
    ForeignKeyConstraint(["person_id", "entry_id"], ["journal_entries.person_id", "journal_entries.id"], ondelete="CASCADE"),
    sqlite_with_rowid=False,
)

journal_numbers = Table(
    "journal_numbers",
    metadata,
    must("person_id", Integer, autoincrement=False),
    must("table", Text),
    must("last", Integer),
    PrimaryKeyConstraint("person_id", "table"),
    of_person(),
    sqlite_with_rowid=False,
)

parcels = numbered(
    "parcels",
    must("address", Text),
    must("kind", Choice(ParcelKind)),
    must("text", Text),
    must("written", UtcInstant),
    must("bold", SPANS),
    must("buttons", BUTTON_ROWS),
    must("silent", Flag),
    may("round", Text),
    may("file_name", Text),
    may("file_bytes", LargeBinary),
    may("encloses", Text),
    may("edits", Integer),
    may("answers", Integer),
    must("refuses", Flag, server_default="0"),
    must("state", Choice(ParcelState)),
    may("not_before", UtcInstant),
    must("tries", Integer),
    may("carried_as", Text),
    may("reason", Text),
    may("tried", UtcInstant),
    may("sent", UtcInstant),
    UniqueConstraint("person_id", "id"),
    names("edits", "parcels"),
    names("answers", "journal_entries"),
    check("tries", "tries >= 0"),
    Index(None, "person_id", "carried_as"),
    some("ix_parcels_owed", "state = 'owed'", "id"),
    some("ix_parcels_put_off", "state = 'owed' AND not_before IS NOT NULL", "address", "not_before"),
    anyones=True,
)

silences = Table(
    "silences",
    metadata,
    Column("person_id", Integer, primary_key=True, autoincrement=False),
    must("since", UtcInstant),
    must("unsent", Integer),
    of_person(),
)

taps = Table(
    "taps",
    metadata,
    must("person_id", Integer),
    must("parcel_id", Integer, autoincrement=False),
    must("row", Integer, autoincrement=False),
    must("place", Integer, autoincrement=False),
    may("entry_id", Integer),
    PrimaryKeyConstraint("parcel_id", "row", "place"),
    ForeignKeyConstraint(["person_id", "parcel_id"], ["parcels.person_id", "parcels.id"], ondelete="CASCADE"),
    names("entry_id", "journal_entries"),
    sqlite_with_rowid=False,
)

rounds = numbered(
    "rounds",
    must("kind", Choice(RoundKind)),
    must("key", Text),
    must("due", UtcInstant),
    must("detail", Text),
    must("state", Choice(RoundState)),
    must("tries", Integer),
    UniqueConstraint("person_id", "kind", "key"),
    check("tries", "tries >= 0"),
    some("ix_rounds_waiting", "state = 'waiting'", "due"),
    some("ix_rounds_missed", "state = 'missed'", "due"),
)

handled = Table(
    "handled",
    metadata,
    must("key", Text, primary_key=True),
    must("at", UtcInstant),
    Index(None, "at"),
    sqlite_with_rowid=False,
)

pairing = Table(
    "pairing",
    metadata,
    Column("id", Integer, primary_key=True, autoincrement=False),
    must("code_hash", Text),
    must("made", UtcInstant),
    must("expires", UtcInstant),
    must("tries", Integer),
    check("single", "id = 1"),
    check("tries", "tries >= 0"),
)

erased = Table(
    "erased",
    metadata,
    # The number of a person who is no more, until the backups have forgotten them, too.
    Column("id", Integer, primary_key=True, autoincrement=False),
    must("at", UtcInstant),
)

forecasts = Table(
    "forecasts",
    metadata,
    must("place", Text, primary_key=True),
    must("fetched", UtcInstant),
    must("payload", Text),
)

told_weather = Table(
    "told_weather",
    metadata,
    must("person_id", Integer, autoincrement=False),
    must("day", LocalDay),
    may("low", Float),
    may("high", Float),
    may("code", Integer),
    must("wet", Flag),
    PrimaryKeyConstraint("person_id", "day"),
    of_person(),
    sqlite_with_rowid=False,
)
