"""The parts that tables are built of, and the metadata that knows them all."""

from __future__ import annotations

from typing import Any, TypeAlias

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    UniqueConstraint,
    text,
)

metadata = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
    }
)

Part: TypeAlias = Column[Any] | CheckConstraint | ForeignKeyConstraint | Index | UniqueConstraint


def must(column: str, type_: Any, **more: Any) -> Column[Any]:
    """A column that always has a value."""
    return Column(column, type_, nullable=False, **more)


def may(column: str, type_: Any) -> Column[Any]:
    """A column that may be NULL."""
    return Column(column, type_, nullable=True)


def of_person() -> ForeignKeyConstraint:
    """The row goes when its person goes."""
    return ForeignKeyConstraint(["person_id"], ["people.id"], ondelete="CASCADE")


def names(column: str, table: str, named: str = "id") -> ForeignKeyConstraint:
    """``column`` names a row of ``table`` of the same person."""
    return ForeignKeyConstraint(["person_id", column], [f"{table}.person_id", f"{table}.{named}"])


def check(name: str, rule: str) -> CheckConstraint:
    """A rule that every row keeps."""
    return CheckConstraint(rule, name=name)


def some(name: str, which: str, *columns: str) -> Index:
    """An index of those rows only which ``which`` picks: few, however many there have been.

    Said for SQLite; ``postgresql.py`` says it for its own kind, which whoever has a file need not load.
    """
    return Index(name, *columns, sqlite_where=text(which))


def shelf(name: str, *parts: Part) -> Table:
    """A journalled table of a person's rows, kept in the order of its key."""
    return Table(
        name,
        metadata,
        must("person_id", Integer),
        must("id", Integer, autoincrement=False),
        *parts,
        PrimaryKeyConstraint("person_id", "id"),
        of_person(),
        sqlite_with_rowid=False,
    )


def numbered(name: str, *parts: Part, anyones: bool = False) -> Table:
    """A table whose ids are unique among all people and never given twice; with ``anyones``, a row may be no person's."""
    return Table(
        name,
        metadata,
        Column("id", Integer, primary_key=True),
        Column("person_id", Integer, nullable=anyones),
        *parts,
        of_person(),
        sqlite_autoincrement=True,
    )
