"""What a job's employer has settled, its rates, and the periods that were handed in."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op
from sqlalchemy import Integer, Text

revision = "0003"
down_revision = "0002"

_PAYDAY = "payday_after >= 0"


def upgrade() -> None:
    """Makes the table of jobs anew with more columns, every row with its id; adds the two tables that name it.

    People get a column for how they write decimals.
    """
    op.add_column("people", sa.Column("decimals", Text, nullable=False, server_default="point"))
    if op.get_context().dialect.name == "sqlite":
        _rebuild_jobs()
    else:
        for column in _settled():
            op.add_column("jobs", column)
        op.create_check_constraint("payday_after", "jobs", _PAYDAY)
    _shelf(
        "job_rates",
        *_must(Integer, "job_id"),
        *_must(Text, "since", "per_hour"),
        _names("job_rates", "job_id", "jobs"),
        sa.UniqueConstraint("person_id", "job_id", "since", name="uq_job_rates_person_id_job_id_since"),
    )
    _shelf(
        "handed_in",
        *_must(Integer, "job_id"),
        *_must(Text, "first", "last", "at", "days"),
        *_may(Text, "rounding"),
        *_must(Text, "breaks"),
        *_must(Integer, "overtime_minutes"),
        *_may(Text, "gross"),
        *_must(Text, "currency"),
        _names("handed_in", "job_id", "jobs"),
        sa.UniqueConstraint("person_id", "job_id", "first", "last", name="uq_handed_in_person_id_job_id_first_last"),
        sa.CheckConstraint("last >= first", name="last"),
    )


def _rebuild_jobs() -> None:
    """SQLite can add no constraint to a table that is there."""
    op.rename_table("jobs", "jobs_before")
    _shelf(
        "jobs",
        *_must(Integer, "category_id"),
        *_must(Text, "employer", "pay_period"),
        *_settled(),
        _names("jobs", "category_id", "categories"),
        sa.UniqueConstraint("person_id", "category_id", name="uq_jobs_person_id_category_id"),
        sa.CheckConstraint(_PAYDAY, name="payday_after"),
    )
    op.execute(
        "INSERT INTO jobs (person_id, id, category_id, employer, pay_period) "
        "SELECT person_id, id, category_id, employer, pay_period FROM jobs_before"
    )
    op.drop_table("jobs_before")


def _settled() -> list[sa.Column[Any]]:
    return [
        *_may(Text, "week_starts", "anchor"),
        *_may(Integer, "payday_after"),
        *_may(Text, "rounding"),
        _since_then(Text, "breaks", "[]"),
        *_may(Text, "overtime"),
        _since_then(Text, "currency", "EUR"),
        _since_then(Integer, "remind", "0"),
    ]


def _shelf(name: str, *parts: sa.schema.SchemaItem) -> None:
    key = (*_must(Integer, "person_id"), sa.Column("id", Integer, nullable=False, autoincrement=False))
    person = sa.ForeignKeyConstraint(["person_id"], ["people.id"], name=f"fk_{name}_person_id", ondelete="CASCADE")
    op.create_table(name, *key, *parts, sa.PrimaryKeyConstraint("person_id", "id", name=f"pk_{name}"), person, sqlite_with_rowid=False)


def _must(type_: Any, *names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, type_, nullable=False) for name in names]


def _may(type_: Any, *names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, type_, nullable=True) for name in names]


def _since_then(type_: Any, name: str, default: str) -> sa.Column[Any]:
    return sa.Column(name, type_, nullable=False, server_default=default)


def _names(table: str, column: str, named: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["person_id", column], [f"{named}.person_id", f"{named}.id"], name=f"fk_{table}_person_id_{column}")
