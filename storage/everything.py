"""All that is kept of a person, table by table: to hand out, and to erase."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Select, Table, bindparam, column, delete, insert, select, table

from storage.connections import Connection, Connections
from storage.kind import Kind
from storage.outbox import owe_a_stranger
from storage.records import Parcel
from storage.schema import JOURNALLED, erased, forecasts, metadata, parcels, people

PERSONAL: tuple[Table, ...] = (
    *JOURNALLED,
    *(table for table in metadata.sorted_tables if "person_id" in table.c and table not in JOURNALLED),
)
"""Every table that holds rows of people: first what they said, then what was done, owed and due."""


def _all_of(kept: Table) -> Select[*tuple[Any, ...]]:
    """Without types, so that values come as they lie."""
    plain = table(kept.name, *(column(each.name) for each in kept.columns))
    owner = plain.c.id if kept is people else plain.c.person_id
    return select(plain).where(owner == bindparam("person_id")).order_by(*(plain.c[key.name] for key in kept.primary_key))


_ALL_OF = {each: _all_of(each) for each in PERSONAL}
_ADDRESS = select(people.c.address).where(people.c.id == bindparam("of_person")).scalar_subquery()
_ERASE_AS_STRANGER = delete(parcels).where(parcels.c.person_id.is_(None), parcels.c.address == _ADDRESS)
# Who names comes before what is named: not every database looks only at the end at what one deletion has left.
_ERASE = (
    *(delete(each).where(each.c.person_id == bindparam("of_person")) for each in reversed(metadata.sorted_tables) if "person_id" in each.c),
    delete(people).where(people.c.id == bindparam("of_person")),
)
_FORGET_PLACES = delete(forecasts)
_NOTE_ERASED = insert(erased)
_ERASED = select(erased.c.id).order_by(erased.c.id)
_FORGET_ERASED = delete(erased).where(erased.c.id == bindparam("of_id"))


@dataclass(frozen=True, slots=True)
class TableRows:
    """One table's rows of one person, as the database holds them: text, numbers, bytes and None."""

    table: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]


class Everything:
    """A person's rows across all tables, each call a transaction of its own."""

    def __init__(self, connections: Connections, kind: Kind) -> None:
        self._connections = connections
        self._kind = kind

    def of(self, person_id: int) -> tuple[TableRows, ...]:
        """All that is kept of the person, table by table, all of one moment."""
        with self._connections.reading() as connection:
            return rows_of(connection, person_id)

    def erase(self, person_id: int, now: datetime) -> None:
        """Removes the person and every row of theirs, messages owed and sent included, also from before they were known.

        What was theirs is no longer in the file's bytes either. Raises StorageError.
        """
        with self._connections.writing() as connection:
            erase_rows(connection, person_id, now)
        self.leave_no_trace()

    def erased(self) -> tuple[int, ...]:
        """The numbers of those who were erased and may still be in backups."""
        with self._connections.reading() as connection:
            return tuple(row[0] for row in connection.execute(_ERASED))

    def forgotten(self, ids: Collection[int]) -> None:
        """No backup holds these any more; they are not none."""
        with self._connections.writing() as connection:
            connection.execute_each(_FORGET_ERASED, [{"of_id": id} for id in ids])

    def leave_no_trace(self) -> None:
        """Takes what was deleted out of the file's bytes, too, where there is one. Raises StorageError."""
        self._kind.leave_no_trace()


class Leaving:
    """The end of a person, within a unit of work of theirs: nothing more can be done in it."""

    def __init__(self, connection: Connection, person_id: int, now: datetime) -> None:
        self._connection = connection
        self._person_id = person_id
        self._now = now

    def erase(self, farewell: Parcel) -> None:
        """Removes the person and every row of theirs, and owes ``farewell`` to their address, which is no person's then."""
        erase_rows(self._connection, self._person_id, self._now)
        owe_a_stranger(self._connection, farewell)


def erase_rows(connection: Connection, person_id: int, now: datetime) -> None:
    """Removes every row of the person but their number. Forecasts go, too, as they name places; they are soon fetched again."""
    connection.execute(_ERASE_AS_STRANGER, {"of_person": person_id})
    for statement in _ERASE:
        connection.execute(statement, {"of_person": person_id})
    connection.execute(_FORGET_PLACES)
    connection.execute(_NOTE_ERASED, {"id": person_id, "at": now})


def rows_of(connection: Connection, person_id: int) -> tuple[TableRows, ...]:
    """All that is kept of the person, table by table, in the order of their keys."""
    return tuple(_rows(connection, each, statement, person_id) for each, statement in _ALL_OF.items())


def _rows(connection: Connection, kept: Table, statement: Select[*tuple[Any, ...]], person_id: int) -> TableRows:
    found = connection.execute(statement, {"person_id": person_id})
    return TableRows(kept.name, tuple(each.name for each in kept.columns), tuple(map(tuple, found)))
