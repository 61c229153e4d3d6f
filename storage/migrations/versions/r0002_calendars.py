"""Calendars of others, their events, and what is said of them by words."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op
from sqlalchemy import Integer, Text

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Adds the four tables."""
    _shelf("calendars", _must(Text, "name"), _may(Text, "link"), _must(Integer, "paused"), [_check("name", "name <> ''")])
    _shelf(
        "calendar_events",
        _must(Integer, "calendar_id"),
        _must(Text, "uid", "recurrence", "title", "starts", "ends"),
        _must(Integer, "all_day", "busy", "cancelled"),
        _must(Text, "place"),
        [
            _names("calendar_events", "calendar_id", "calendars"),
            sa.UniqueConstraint(
                *("person_id", "calendar_id", "uid", "recurrence"), name="uq_calendar_events_person_id_calendar_id_uid_recurrence"
            ),
            _check("ends", "ends >= starts"),
        ],
    )
    op.create_index("ix_calendar_events_person_id_ends", "calendar_events", ["person_id", "ends"])
    _shelf(
        "marks",
        _must(Text, "words"),
        _may(Integer, "category_id", "minor", "outdoors"),
        [
            _names("marks", "category_id", "categories"),
            _check("words", "words <> ''"),
        ],
    )
    _table(
        "calendar_visits",
        [*_must(Integer, "person_id", "calendar_id"), *_must(Text, "at", "reaches"), *_may(Text, "etag", "last_modified")],
        ("person_id", "calendar_id"),
    )


def _shelf(name: str, *parts: list[sa.schema.SchemaItem]) -> None:
    columns = [*_must(Integer, "person_id"), sa.Column("id", Integer, nullable=False, autoincrement=False)]
    _table(name, [*columns, *(part for some in parts for part in some)], ("person_id", "id"))


def _table(name: str, parts: list[sa.schema.SchemaItem], key: tuple[str, str]) -> None:
    person = sa.ForeignKeyConstraint(["person_id"], ["people.id"], name=f"fk_{name}_person_id", ondelete="CASCADE")
    op.create_table(name, *parts, sa.PrimaryKeyConstraint(*key, name=f"pk_{name}"), person, sqlite_with_rowid=False)


def _must(type_: Any, *names: str) -> list[sa.schema.SchemaItem]:
    return [sa.Column(name, type_, nullable=False) for name in names]


def _may(type_: Any, *names: str) -> list[sa.schema.SchemaItem]:
    return [sa.Column(name, type_, nullable=True) for name in names]


def _names(table: str, column: str, named: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["person_id", column], [f"{named}.person_id", f"{named}.id"], name=f"fk_{table}_person_id_{column}")


def _check(name: str, rule: str) -> sa.CheckConstraint:
    return sa.CheckConstraint(rule, name=name)
