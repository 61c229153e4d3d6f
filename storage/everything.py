"""All that is kept of a person, table by table: to hand out, and to erase."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import bindparam, column, delete, select, table

from storage.connections import Connection, Connections
from storage.schema import JOURNALLED, metadata, parcels, people

# In this order each table names only those before it.
_SAID = tuple(table.name for table in JOURNALLED)
_ADDRESS = select(people.c.address).where(people.c.id == bindparam("of_person")).scalar_subquery()
_ERASE_AS_STRANGER = delete(parcels).where(parcels.c.person_id.is_(None), parcels.c.address == _ADDRESS)
_ERASE = delete(people).where(people.c.id == bindparam("of_person"))


@dataclass(frozen=True, slots=True)
class TableRows:
    """One table's rows of one person, as the database holds them: text, numbers and None."""

    table: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]


class Everything:
    """A person's rows across all tables, each call a transaction of its own."""

    def __init__(self, connections: Connections) -> None:
        self._connections = connections

    def of(self, person_id: int) -> tuple[TableRows, ...]:
        """What the person said, table by table, all of one moment."""
        with self._connections.reading() as connection:
            return tuple(_rows(connection, name, person_id) for name in _SAID)

    def erase(self, person_id: int) -> None:
        """Removes the person and every row of theirs, messages owed and sent included, also from before they were known."""
        with self._connections.writing() as connection:
            connection.execute(_ERASE_AS_STRANGER, {"of_person": person_id})
            connection.execute(_ERASE, {"of_person": person_id})


def _rows(connection: Connection, name: str, person_id: int) -> TableRows:
    """Selected without types, so that values come as they lie."""
    columns = tuple(each.name for each in metadata.tables[name].columns)
    plain = table(name, *(column(each) for each in columns))
    owner = plain.c.id if name == "people" else plain.c.person_id
    found = connection.execute(select(plain).where(owner == person_id).order_by(plain.c.id))
    return TableRows(name, columns, tuple(found))
