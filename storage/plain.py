"""Rows as the database holds them, read and written without looking at what they mean.

Every change of a journalled row goes through here, so none can be made
without being noted.

Ids of journalled rows are handed out here too, counted per person and table
in ``journal_numbers``. Undoing an addition takes the row away and leaves the
count, so its id never goes to another row and an old button stays harmless.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Delete, Insert, Select, Update, bindparam, column, delete, insert, select, table, update
from sqlalchemy import Table as SchemaTable

from storage.connections import Connection
from storage.putting import Added
from storage.schema import JOURNALLED, journal_numbers
from storage.types import RawRow, Row


@dataclass(frozen=True, slots=True)
class Change:
    """One row before and after; None where there was or is none."""

    table: str
    row_id: int
    before: RawRow | None
    after: RawRow | None


@dataclass(frozen=True, slots=True)
class _Statements:
    """Built without types, so that values pass through untouched.

    ``columns`` are those that are read, ``owned`` tells whether rows carry ``person_id``.
    """

    read: Select[*tuple[Any, ...]]
    insert: Insert
    update: Update
    delete: Delete
    columns: tuple[str, ...]
    owned: bool


def _statements(of: SchemaTable) -> _Statements:
    plain = table(of.name, *(column(each.name) for each in of.columns))
    owned = "person_id" in of.c
    owner = plain.c.person_id if owned else plain.c.id
    this = (owner == bindparam("of_person"), plain.c.id == bindparam("of_id"))
    kept = [each for each in plain.c if each.name != "person_id"]
    names = tuple(each.name for each in kept)
    return _Statements(select(*kept).where(*this), insert(plain), update(plain).where(*this), delete(plain).where(*this), names, owned)


_COUNT_ON = Added(journal_numbers).returning(journal_numbers.c.last)
_STATEMENTS = {of.name: _statements(of) for of in JOURNALLED}


class PlainRows:
    """The person's rows, by table and id.

    ``noted`` holds every change made since it was last emptied; ``versions`` has another number for a table each time it was written.
    """

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id
        self._seen: dict[str, dict[int, tuple[Sequence[str], Row]]] = {}
        self.noted: list[Change] = []
        self.versions = dict.fromkeys(_STATEMENTS, 0)

    def saw(self, table: str, columns: Sequence[str], rows: Iterable[Row]) -> None:
        """Remembers whole rows of the person, as they were just read: each until it is written."""
        place_of_id = columns.index("id")
        seen = self._seen.setdefault(table, {})
        for row in rows:
            seen[row[place_of_id]] = columns, row

    def read(self, table: str, row_id: int) -> RawRow | None:
        """The row without its person_id, or None when the person has no such row."""
        seen = self._seen.get(table, {}).get(row_id)
        if seen is not None:
            return dict(zip(*seen, strict=True))
        statements = _STATEMENTS[table]
        found = self._connection.execute(statements.read, self._key(row_id)).first()
        return None if found is None else dict(zip(statements.columns, found, strict=True))

    def write(self, change: Change) -> None:
        """Brings the row from ``change.before`` to ``change.after`` and notes it. Raises Refused."""
        if change.before == change.after:
            return
        self._carry_out(change)
        self.noted.append(change)
        self.versions[change.table] += 1
        self._seen.get(change.table, {}).pop(change.row_id, None)

    def insert(self, table: str, rows: Mapping[int, RawRow]) -> None:
        """Keeps new rows by their ids, all or none of them, and notes each. Raises Refused."""
        if len(rows) < 2:
            for id, row in rows.items():
                self.write(Change(table, id, None, row))
            return
        with self._connection.begin_nested():
            self._connection.execute_each(_STATEMENTS[table].insert, [self._owned(table, row) for row in rows.values()])
        self.noted += [Change(table, id, None, row) for id, row in rows.items()]
        self.versions[table] += 1

    def new_ids(self, table: str, count: int) -> range:
        """Ids that no row of the person in ``table`` ever had."""
        if not count:
            return range(0)
        last: int = self._connection.execute(_COUNT_ON, {"person_id": self._person_id, "table": table, "last": count}).scalar()
        return range(last - count + 1, last + 1)

    def take_noted(self) -> list[Change]:
        """What was noted so far, which is no longer noted from now on."""
        taken, self.noted = self.noted, []
        return taken

    def forget_since(self, noted: list[Change]) -> None:
        """The transaction was rolled back to where ``noted`` was all that had been noted; any table may have been written."""
        self.noted = noted
        for each in self.versions:
            self.versions[each] += 1
        self._seen.clear()

    def _carry_out(self, change: Change) -> None:
        statements = _STATEMENTS[change.table]
        if change.after is None:
            self._connection.execute(statements.delete, self._key(change.row_id))
        elif change.before is None:
            self._connection.execute(statements.insert, self._owned(change.table, change.after))
        else:
            # What stays as it is is not set: even so, the row would be taken out of each index that has it and put in again.
            changed = {name: value for name, value in change.after.items() if value != change.before[name]}
            self._connection.execute(statements.update, {**changed, **self._key(change.row_id)})

    def _owned(self, table: str, row: RawRow) -> dict[str, Any]:
        return {"person_id": self._person_id, **row} if _STATEMENTS[table].owned else {**row}

    def _key(self, row_id: int) -> dict[str, int]:
        return {"of_person": self._person_id, "of_id": row_id}
