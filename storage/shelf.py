"""One person's records of one kind."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Generic, TypeAlias, TypeVar

from sqlalchemy import Select

from storage.connections import Connection, Found
from storage.errors import NotThere, Refused, StillUsed
from storage.forms import Form
from storage.journal import Journal
from storage.plain import Change
from storage.types import RawRow

R = TypeVar("R")
T = TypeVar("T")
Given: TypeAlias = Mapping[str, object]
Making: TypeAlias = Callable[[Found], Iterable[T]]
"""What is made of the rows that a statement gave."""


class Shelf(Generic[R]):
    """Reads and changes the person's rows of ``form``; every change is noted for the journal.

    No other person's row can be seen or touched: to this shelf it is not there.
    What was read is remembered until the table is written, as one unit of work asks the same many times.
    Its statements therefore look at no other table.
    """

    def __init__(self, form: Form[R], connection: Connection, person_id: int, journal: Journal) -> None:
        self.form = form
        self._connection = connection
        self._person_id = person_id
        self._journal = journal
        self._remembered: dict[Select[*tuple[Any, ...]], dict[tuple[Any, ...], tuple[Any, ...]]] = {}
        self._version = 0

    def get(self, id: int) -> R:
        """The record with this id. Raises NotThere."""
        found = self.find(id)
        if found is None:
            raise NotThere(self.form.name, id)
        return found

    def find(self, id: int) -> R | None:
        """The record with this id, or None."""
        everything = self._remembered_of(self.form.every).get(())
        if everything is None:
            return self.first(self.form.one, id=id)
        return next((each for each in everything if self.form.id_of(each) == id), None)

    def all(self) -> tuple[R, ...]:
        """Every record, oldest first."""
        return self.many(self.form.every)

    def add(self, record: R) -> R:
        """Keeps a new record and gives it back with its id, which was never used before. Raises Refused, Unkeepable."""
        return self.add_all((record,))[0]

    def add_all(self, records: Sequence[R]) -> tuple[R, ...]:
        """The same for several, in their order."""
        ids = self._journal.rows.new_ids(self.form.name, len(records))
        kept = tuple(map(self.form.with_id, records, ids))
        self._journal.rows.insert(self.form.name, dict(zip(ids, map(self.form.raw, kept), strict=True)))
        return kept

    def change(self, record: R) -> R:
        """Keeps the record in place of the one with its id. Raises NotThere, Refused, Unkeepable."""
        id = self.form.id_of(record)
        self._journal.rows.write(Change(self.form.name, id, self._row(id), self.form.raw(record)))
        return record

    def remove(self, id: int) -> None:
        """Forgets the record with this id. Raises NotThere, and StillUsed while other rows name it."""
        removal = Change(self.form.name, id, self._row(id), None)
        try:
            with self._connection.begin_nested():
                self._journal.rows.write(removal)
        except Refused as named:
            raise StillUsed(self.form.name, id) from named

    def many(self, statement: Select[*tuple[Any, ...]], **given: object) -> tuple[R, ...]:
        """The records that a statement of the form's ``mine`` selects."""
        return self._known(self._records, statement, given)

    def first(self, statement: Select[*tuple[Any, ...]], **given: object) -> R | None:
        """The first of them, or None."""
        return next(iter(self.many(statement, **given)), None)

    def _known(self, made: Making[T], statement: Select[*tuple[Any, ...]], given: Given) -> tuple[T, ...]:
        """What is ``made`` of the person's rows that the statement selects: read, or remembered."""
        remembered = self._remembered_of(statement)
        asked = tuple(given.values())
        found = remembered.get(asked)
        if found is None:
            found = remembered[asked] = self._read(made, statement, given)
        return found

    def _remembered_of(self, statement: Select[*tuple[Any, ...]]) -> dict[tuple[Any, ...], tuple[Any, ...]]:
        """What was read by the statement since the table was last written, by the values it was given."""
        version = self._journal.rows.versions[self.form.name]
        if version != self._version:
            self._remembered, self._version = {}, version
        return self._remembered.setdefault(statement, {})

    def _read(self, made: Making[T], statement: Select[*tuple[Any, ...]], given: Given) -> tuple[T, ...]:
        return tuple(made(self._connection.execute(statement, {"person_id": self._person_id, **given})))

    def _records(self, found: Found) -> Iterator[R]:
        """The records of whole rows, which need not be read again to be changed."""
        if found.raw:
            self._journal.rows.saw(self.form.name, self.form.fields, found.raw)
        return map(self.form.record, found.rows)

    def _row(self, id: int) -> RawRow:
        """The row as it is now. Raises NotThere."""
        row = self._journal.rows.read(self.form.name, id)
        if row is None:
            raise NotThere(self.form.name, id)
        return row
