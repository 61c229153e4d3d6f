"""Rows that take the place of the one with the same key, or are added to it."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Insert
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.compiler import SQLCompiler


class Put(Insert):
    """Keeps a row, in place of an earlier one with the same key.

    SQLAlchemy has a statement of each kind of database for it, though both say it in the same words:
    sqlite.org/lang_upsert.html, postgresql.org/docs/current/sql-insert.html.
    """

    inherit_cache = True

    def settled(self, name: str) -> str:
        """What the column called ``name`` has where there was a row already."""
        return f"excluded.{name}"


class Added(Put):
    """The same, but the numbers of an earlier row with the same key are added to."""

    inherit_cache = True

    def settled(self, name: str) -> str:
        """The sum of both."""
        return f"{self.table.name}.{name} + excluded.{name}"


@compiles(Put)
def _said(put: Put, compiler: SQLCompiler, **options: Any) -> str:
    name = compiler.preparer.format_column
    key = ", ".join(name(each) for each in put.table.primary_key)
    rest = ", ".join(f"{name(each)} = {put.settled(name(each))}" for each in put.table.c if not each.primary_key)
    inserted, returning, what = compiler.visit_insert(put, **options).partition(" RETURNING ")  # type: ignore[no-untyped-call]
    # All of it is the names of our own columns.
    return f"{inserted} ON CONFLICT ({key}) DO UPDATE SET {rest}{returning}{what}"  # nosec B608
