"""A person's rows written back as they lay, into a database that holds nobody. What does not belong there is refused."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Column, Connection, Float, Integer, LargeBinary, Table, column, insert, select, table

from storage.errors import Malformed, NotEmpty, Unkeepable
from storage.everything import PERSONAL, TableRows
from storage.kind import Kind
from storage.schema import JOURNALLED, journal_changes, people
from storage.types import Kept

_TABLES = {each.name: each for each in PERSONAL}
_JOURNALLED = {each.name: each for each in JOURNALLED}
_ANYONE = select(people.c.id).limit(1)
# What can go wrong when text that may be anything is read as a kept value.
_UNREAD = (ValueError, TypeError, LookupError, AttributeError, ArithmeticError, RecursionError, Unkeepable)


def bring_in(kind: Kind, connection: Connection, persons: Iterable[Sequence[TableRows]]) -> None:
    """Writes every row of every person within the connection's transaction.

    Raises NotEmpty, Malformed for a value that the program would not have written, and Refused.
    """
    if connection.execute(_ANYONE).first() is not None:
        raise NotEmpty
    # Rows of a table may name later ones, so references are checked once all are there.
    kind.defer_references(connection)
    for tables in persons:
        for each in tables:
            _write(connection, each)
    kind.check_references(connection)


def _write(connection: Connection, given: TableRows) -> None:
    kept = _TABLES[given.table]
    columns = [kept.c[name] for name in given.columns]
    for number, row in enumerate(given.rows, 1):
        for each, value in zip(columns, row, strict=True):
            if not _belongs(each, value):
                raise Malformed(given.table, number, each.name)
        if kept is journal_changes and not _is_change(dict(zip(given.columns, row, strict=True))):
            raise Malformed(given.table, number, "after")
    if given.rows:
        # Without types, so that values go in as they came out.
        plain = table(kept.name, *(column(name) for name in given.columns))
        connection.execute(insert(plain), [dict(zip(given.columns, row, strict=True)) for row in given.rows])


def _belongs(into: Column[Any], value: Any) -> bool:
    """Whether the program itself could have written the value into this column."""
    if value is None:
        return bool(into.nullable)
    type_ = into.type
    if isinstance(type_, Kept):
        return _is_kept(type_, value)
    if isinstance(type_, LargeBinary):
        return isinstance(value, bytes)
    if isinstance(type_, Float):
        return isinstance(value, int | float) and not isinstance(value, bool)
    if isinstance(type_, Integer):
        return isinstance(value, int) and not isinstance(value, bool) and abs(value) < 1 << 63
    return isinstance(value, str)


def _is_kept(type_: Kept[Any], value: Any) -> bool:
    """Whether the raw value is exactly what some value of this type is kept as."""
    if not isinstance(value, str | int) or isinstance(value, bool):
        return False
    try:
        return bool(type_.keep(type_.recall(value)) == value)
    except _UNREAD:
        return False


def _is_change(row: dict[str, Any]) -> bool:
    """Whether a change tells of a table that can be undone, in rows of its columns: an undo writes them back."""
    of = _JOURNALLED.get(row.get("table") or "")
    return of is not None and all(_is_row(of, row.get(side)) for side in ("before", "after"))


def _is_row(of: Table, text: str | None) -> bool:
    if text is None:
        return True
    try:
        row = json.loads(text)
    except _UNREAD:
        return False
    return isinstance(row, dict) and set(row) <= set(of.c.keys())
