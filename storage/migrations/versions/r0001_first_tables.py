"""The first tables."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op
from sqlalchemy import Float, Integer, Text

revision = "0001"
down_revision = None

_tables = sa.MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
    }
)


_RULES_OF_PEOPLE = (
    ("latitude", "latitude BETWEEN -90 AND 90"), ("longitude", "longitude BETWEEN -180 AND 180"),
    ("place", "(latitude IS NULL) = (longitude IS NULL)"), ("free_share", "free_share BETWEEN 0 AND 100"),
)  # fmt: skip


def upgrade() -> None:
    """Makes every table as it was in the first release."""
    for made in (_people, _names_of_things, _planned, _wanted, _spent, _journal, _parcels, _taps, _rounds, _for_everyone):
        made()
    _tables.create_all(op.get_bind(), checkfirst=False)


def _must(type_: Any, *names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, type_, nullable=False) for name in names]


def _may(type_: Any, *names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, type_, nullable=True) for name in names]


def _names(column: str, table: str, named: str = "id") -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["person_id", column], [f"{table}.person_id", f"{table}.{named}"])


def _person() -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["person_id"], ["people.id"], ondelete="CASCADE")


def _check(name: str, rule: str) -> sa.CheckConstraint:
    return sa.CheckConstraint(rule, name=name)


def _some(name: str, which: str, *columns: str) -> sa.Index:
    return sa.Index(name, *columns, sqlite_where=sa.text(which), postgresql_where=sa.text(which))


def _table(name: str, *parts: Any, **options: Any) -> sa.Table:
    return sa.Table(name, _tables, *parts, **options)


def _shelf(name: str, *parts: Any) -> sa.Table:
    own_key = (sa.Column("id", Integer, nullable=False, autoincrement=False),)
    closing = (sa.PrimaryKeyConstraint("person_id", "id"), _person())
    return _table(name, *_must(Integer, "person_id"), *own_key, *parts, *closing, sqlite_with_rowid=False)


def _numbered(name: str, *parts: Any, anyones: bool = False) -> sa.Table:
    key = sa.Column("id", Integer, primary_key=True)
    owner = sa.Column("person_id", Integer, nullable=anyones)
    return _table(name, key, owner, *parts, _person(), sqlite_autoincrement=True)


def _people() -> None:
    _table(
        "people",
        sa.Column("id", Integer, primary_key=True),
        sa.Column("address", Text, nullable=False, unique=True),
        *_must(Text, "zone", "joined"),
        *_may(Text, "place_name"),
        *_may(Float, "latitude", "longitude"),
        *_must(Text, "waking_start", "waking_end", "week_starts", "date_order", "morning_at", "evening_at", "recap_at"),
        *_must(Integer, "free_share"),
        *(*_must(Text, "step"), *_must(Integer, "holidays")),
        *(_check(name, rule) for name, rule in _RULES_OF_PEOPLE),
        sqlite_autoincrement=True,
    )


def _names_of_things() -> None:
    sections = _shelf("sections", *_must(Text, "name"), sa.UniqueConstraint("person_id", "name"), _check("name", "name <> ''"))
    categories = _shelf(
        "categories",
        *_must(Text, "name", "section", "aliases", "colour"),
        _names("section", "sections", "name"),
        _check("name", "name <> ''"),
    )
    for table in (sections, categories):
        sa.Index(f"uq_{table.name}_person_id_lower_name", table.c.person_id, sa.func.lower(table.c.name), unique=True)
    _shelf(
        "jobs",
        *_must(Integer, "category_id"),
        *_must(Text, "employer", "pay_period"),
        _names("category_id", "categories"),
        sa.UniqueConstraint("person_id", "category_id"),
    )


def _planned() -> None:
    _shelf(
        "commitments",
        *_must(Text, "title", "starts", "ends", "zone"),
        *_may(Integer, "category_id"),
        *_may(Text, "rule"),
        *_must(Integer, "major", "outdoors", "all_day"),
        *(*_must(Text, "except_days"), *_must(Integer, "cancelled")),
        _names("category_id", "categories"),
        _check("ends", "ends > starts"),
        sa.Index(None, "person_id", "starts"),
    )
    _shelf(
        "routines",
        *_must(Text, "title"),
        *_must(Integer, "minutes"),
        *_must(Text, "rule", "since"),
        *_may(Text, "window_start", "window_end"),
        *_may(Integer, "category_id"),
        _names("category_id", "categories"),
        _check("minutes", "minutes >= 0"),
    )


def _wanted() -> None:
    _shelf(
        "goals",
        *_must(Text, "title", "horizon", "period", "section"),
        *_may(Integer, "category_id", "estimate_minutes"),
        *_must(Text, "state"),
        *_must(Integer, "carried"),
        *_may(Integer, "origin_id"),
        _names("section", "sections", "name"),
        _names("category_id", "categories"),
        _names("origin_id", "goals"),
        _check("estimate_minutes", "estimate_minutes >= 0"),
        _check("carried", "carried >= 0"),
        sa.Index(None, "person_id", "period"),
    )
    _shelf(
        "tasks",
        *_must(Text, "title", "day"),
        *_must(Integer, "number"),
        *_may(Integer, "category_id", "goal_id", "estimate_minutes"),
        *_must(Text, "state", "pushes"),
        *_must(Integer, "outdoors"),
        _names("category_id", "categories"),
        _names("goal_id", "goals"),
        _check("number", "number >= 1"),
        _check("estimate_minutes", "estimate_minutes >= 0"),
        sa.Index(None, "person_id", "day"),
        sa.Index(None, "person_id", "goal_id"),
    )
    _shelf(
        "targets",
        *_must(Integer, "category_id"),
        *_must(Text, "since"),
        *_may(Integer, "at_least_minutes", "at_most_minutes"),
        _names("category_id", "categories"),
        _check("at_least_minutes", "at_least_minutes >= 0"),
        _check("at_most_minutes", "at_most_minutes >= 0"),
    )


def _spent() -> None:
    _shelf(
        "stints",
        *_must(Integer, "category_id"),
        *_must(Text, "day"),
        *_must(Integer, "minutes"),
        *_may(Text, "starts", "ends"),
        *_must(Integer, "break_minutes"),
        *_must(Text, "task_ids"),
        *_may(Text, "note"),
        _names("category_id", "categories"),
        _check("minutes", "minutes >= 0"),
        _check("break_minutes", "break_minutes >= 0"),
        _check("ends", "ends > starts"),
        sa.Index(None, "person_id", "day"),
        sa.Index(None, "person_id", "category_id", "day"),
        sa.Index(None, "person_id", "ends"),
    )
    _shelf(
        "blocks",
        *_must(Text, "day", "starts", "ends", "title"),
        *_may(Integer, "category_id", "task_id", "routine_id", "goal_id"),
        *_must(Integer, "accepted"),
        _names("category_id", "categories"),
        _check("ends", "ends > starts"),
        sa.Index(None, "person_id", "day"),
    )
    columns = (*_must(Integer, "category_id"), *_must(Text, "starts"))
    _shelf("running", *columns, _names("category_id", "categories"), sa.UniqueConstraint("person_id"))


def _journal() -> None:
    _numbered(
        "journal_entries",
        *_must(Text, "at", "summary"),
        *_may(Text, "heard_key"),
        *_may(Integer, "undone_by", "undoes", "replaces"),
        *_must(Text, "by"),
        sa.UniqueConstraint("person_id", "id"),
        _names("undone_by", "journal_entries"),
        _names("undoes", "journal_entries"),
        _names("replaces", "journal_entries"),
        sa.Index(None, "person_id", "heard_key"),
    )
    entry = sa.ForeignKeyConstraint(["person_id", "entry_id"], ["journal_entries.person_id", "journal_entries.id"], ondelete="CASCADE")
    _table(
        "journal_changes",
        *_must(Integer, "entry_id", "step", "person_id"),
        *_must(Text, "table"),
        *_must(Integer, "row_id"),
        *_may(Text, "before", "after"),
        sa.PrimaryKeyConstraint("entry_id", "step"),
        entry,
        sqlite_with_rowid=False,
    )
    _table(
        "journal_numbers",
        *_must(Integer, "person_id"),
        *_must(Text, "table"),
        *_must(Integer, "last"),
        sa.PrimaryKeyConstraint("person_id", "table"),
        _person(),
        sqlite_with_rowid=False,
    )


def _parcels() -> None:
    _numbered(
        "parcels",
        *_must(Text, "address", "kind", "text", "written", "bold", "buttons"),
        *_must(Integer, "silent"),
        *_may(Text, "round", "file_name"),
        *_may(sa.LargeBinary, "file_bytes"),
        *_may(Integer, "edits", "answers"),
        *_must(Text, "state"),
        *_may(Text, "not_before"),
        *_must(Integer, "tries"),
        *_may(Text, "carried_as", "reason", "tried", "sent"),
        sa.UniqueConstraint("person_id", "id"),
        _names("edits", "parcels"),
        _names("answers", "journal_entries"),
        _check("tries", "tries >= 0"),
        sa.Index(None, "person_id", "carried_as"),
        _some("ix_parcels_owed", "state = 'owed'", "id"),
        _some("ix_parcels_put_off", "state = 'owed' AND not_before IS NOT NULL", "address", "not_before"),
        anyones=True,
    )


def _taps() -> None:
    parcel = sa.ForeignKeyConstraint(["person_id", "parcel_id"], ["parcels.person_id", "parcels.id"], ondelete="CASCADE")
    _table(
        "taps",
        *_must(Integer, "person_id", "parcel_id", "row", "place"),
        *_may(Integer, "entry_id"),
        sa.PrimaryKeyConstraint("parcel_id", "row", "place"),
        parcel,
        _names("entry_id", "journal_entries"),
        sqlite_with_rowid=False,
    )


def _rounds() -> None:
    _numbered(
        "rounds",
        *_must(Text, "kind", "key", "due", "detail", "state"),
        *_must(Integer, "tries"),
        sa.UniqueConstraint("person_id", "kind", "key"),
        _check("tries", "tries >= 0"),
        _some("ix_rounds_waiting", "state = 'waiting'", "due"),
    )


def _for_everyone() -> None:
    _table("handled", *_must(Text, "key", "at"), sa.PrimaryKeyConstraint("key"), sa.Index(None, "at"), sqlite_with_rowid=False)
    _table(
        "pairing",
        sa.Column("id", Integer, primary_key=True, autoincrement=False),
        *_must(Text, "code_hash", "made", "expires"),
        *_must(Integer, "tries"),
        _check("single", "id = 1"),
        _check("tries", "tries >= 0"),
    )
    _table("forecasts", *_must(Text, "place", "fetched", "payload"), sa.PrimaryKeyConstraint("place"))
