"""All that is kept of a person, table by table: to hand out, and to erase."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import Table, bindparam, column, delete, select, table

from storage.connections import Connection, Connections
from storage.schema import JOURNALLED, metadata, parcels, people

PERSONAL: tuple[Table, ...] = (
    *JOURNALLED,
    *(table for table in metadata.sorted_tables if "person_id" in table.c and table not in JOURNALLED),
)
"""Every table that holds rows of people: first what they said, then what was done, owed and due."""

_ADDRESS = select(people.c.address).where(people.c.id == bindparam("of_person")).scalar_subquery()
_ERASE_AS_STRANGER = delete(parcels).where(parcels.c.person_id.is_(None), parcels.c.address == _ADDRESS)
_ERASE = delete(people).where(people.c.id == bindparam("of_person"))


@dataclass(frozen=True, slots=True)
class TableRows:
    """One table's rows of one person, as the database holds them: text, numbers, bytes and None."""

    table: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]


class Everything:
    """A person's rows across all tables, each call a transaction of its own."""

    def __init__(self, connections: Connections) -> None:
        self._connections = connections

    def of(self, person_id: int) -> tuple[TableRows, ...]:
        """All that is kept of the person, table by table, all of one moment."""
        with self._connections.reading() as connection:
            return rows_of(connection, person_id)

    def erase(self, person_id: int) -> None:
        """Removes the person and every row of theirs, messages owed and sent included, also from before they were known."""
        with self._connections.writing() as connection:
            connection.execute(_ERASE_AS_STRANGER, {"of_person": person_id})
            connection.execute(_ERASE, {"of_person": person_id})


def rows_of(connection: Connection, person_id: int) -> tuple[TableRows, ...]:
    """All that is kept of the person, table by table, in the order of their keys."""
    return tuple(_rows(connection, each, person_id) for each in PERSONAL)


def _rows(connection: Connection, kept: Table, person_id: int) -> TableRows:
    """Selected without types, so that values come as they lie."""
    columns = tuple(each.name for each in kept.columns)
    plain = table(kept.name, *(column(each) for each in columns))
    owner = plain.c.id if kept is people else plain.c.person_id
    found = connection.execute(select(plain).where(owner == person_id).order_by(*(plain.c[key.name] for key in kept.primary_key)))
    return TableRows(kept.name, columns, tuple(found))
