"""All of a database into an empty one, of whatever kind each is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import zip_longest
from typing import Any

from sqlalchemy import Connection, Select, Table, column, insert, select, table

from storage.errors import Faulty, NotEmpty
from storage.kind import Kind
from storage.schema import metadata

AT_ONCE = 1000
"""Rows in hand at a time."""


def copy_everything(source: Kind, outgoing: Connection, target: Kind, incoming: Connection) -> Mapping[str, int]:
    """Writes every row of every table within the transaction ``incoming``, and reads it back; gives how many rows each table has.

    Raises NotEmpty when there is any row, Refused, and Faulty when what is read back is not what was written.
    """
    if any(incoming.execute(select(each).limit(1)).first() is not None for each in metadata.sorted_tables):
        raise NotEmpty
    target.defer_references(incoming)
    for each in metadata.sorted_tables:
        for rows in _batches(outgoing, each):
            incoming.execute(insert(_plain(each)), [dict(zip(each.c.keys(), row, strict=True)) for row in rows])
    target.number_on(incoming, source.last_numbers(outgoing))
    target.check_references(incoming)
    return {each.name: _compared(target, each, outgoing, incoming) for each in metadata.sorted_tables}


def _compared(target: Kind, kept: Table, outgoing: Connection, incoming: Connection) -> int:
    """How many rows both have, all of them the same."""
    number = 0
    for number, (ours, theirs) in enumerate(zip_longest(_rows(outgoing, kept), _rows(incoming, kept)), 1):
        if ours != theirs:
            raise Faulty(target.place, f"row {number} of {kept.name} is not as it was written")
    return number


def _rows(connection: Connection, kept: Table) -> Iterator[tuple[Any, ...]]:
    for rows in _batches(connection, kept):
        yield from rows


def _batches(connection: Connection, kept: Table) -> Iterator[list[tuple[Any, ...]]]:
    plain = _plain(kept)
    inquiry: Select[*tuple[Any, ...]] = select(plain).order_by(*(plain.c[key.name] for key in kept.primary_key))
    found = connection.execution_options(yield_per=AT_ONCE).execute(inquiry)
    for rows in found.partitions():
        yield [tuple(row) for row in rows]


def _plain(kept: Table) -> Any:
    """The table without types, so that values go in as they came out."""
    return table(kept.name, *(column(each.name) for each in kept.columns))
