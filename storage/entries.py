"""The journal's entries and their changes, as they are kept."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, exists, insert, select, update

from storage.connections import Connection
from storage.errors import NotThere
from storage.forms import ENTRIES
from storage.plain import Change
from storage.records import Author, Entry
from storage.schema import journal_changes, journal_entries
from storage.statements import Statement
from storage.types import RawRow, json_text

_CHANGES = (
    select(journal_changes.c.table, journal_changes.c.row_id, journal_changes.c.before, journal_changes.c.after)
    .where(journal_changes.c.person_id == bindparam("person_id"), journal_changes.c.entry_id == bindparam("entry_id"))
    .order_by(journal_changes.c.step)
)
_NEWEST_FIRST = (journal_entries.c.id.desc(),)
_NO_UNDOING = journal_entries.c.undoes.is_(None)
_BY_HEARD = ENTRIES.mine(
    journal_entries.c.heard_key == bindparam("heard_key"),
    _NO_UNDOING,
    order=(journal_entries.c.undone_by.is_not(None), *_NEWEST_FIRST),
).limit(1)
_TO_UNDO = (
    journal_entries.c.by == bindparam("by"),
    journal_entries.c.undone_by.is_(None),
    _NO_UNDOING,
    exists().where(journal_changes.c.entry_id == journal_entries.c.id),
)
_LATEST = ENTRIES.mine(*_TO_UNDO, order=_NEWEST_FIRST).limit(1)
_EARLIER = ENTRIES.mine(*_TO_UNDO, journal_entries.c.id < bindparam("before"), order=_NEWEST_FIRST).limit(1)
_LATEST_OF_ROW = ENTRIES.mine(
    exists().where(
        journal_changes.c.entry_id == journal_entries.c.id,
        journal_changes.c.table == bindparam("of_table"),
        journal_changes.c.row_id == bindparam("of_row"),
    ),
    order=_NEWEST_FIRST,
).limit(1)
_TOUCHING = ENTRIES.mine(
    journal_entries.c.at >= bindparam("since"),
    exists().where(
        journal_changes.c.entry_id == journal_entries.c.id,
        journal_changes.c.table == bindparam("table"),
        journal_changes.c.row_id == bindparam("row_id"),
    ),
    order=_NEWEST_FIRST,
).limit(1)
_LATEST_UNDO = ENTRIES.mine(journal_entries.c.undone_by.is_(None), journal_entries.c.undoes.is_not(None), order=_NEWEST_FIRST).limit(1)
_MARK = (
    update(journal_entries)
    .where(journal_entries.c.person_id == bindparam("of_person"), journal_entries.c.id == bindparam("of_id"))
    .values(undone_by=bindparam("undoing"))
)
_ADD_ENTRY = insert(journal_entries).returning(journal_entries.c.id)
_ADD_CHANGES = insert(journal_changes)


class Entries:
    """One person's entries. Another person's are not there."""

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id
        self._newest: tuple[int, tuple[Change, ...]] | None = None

    def get(self, id: int) -> Entry:
        """The person's entry with this id. Raises NotThere."""
        found = self._first(ENTRIES.one, id=id)
        if found is None:
            raise NotThere(ENTRIES.name, id)
        return found

    def by_heard(self, heard_key: str) -> Entry | None:
        """What the message ``heard_key`` did: the newest entry in force, or else the newest that was undone.

        Entries that only undo are passed over.
        """
        return self._first(_BY_HEARD, heard_key=heard_key)

    def latest_to_undo(self) -> Entry | None:
        """The newest entry of the person's own that changed something, is in force and is not itself an undo."""
        return self._first(_LATEST, by=Author.PERSON)

    def earlier_to_undo(self, entry_id: int) -> Entry | None:
        """The newest of those that came before the entry ``entry_id``."""
        return self._first(_EARLIER, by=Author.PERSON, before=entry_id)

    def changed_last_by(self, change: Change) -> Entry | None:
        """The newest entry that changed the row of ``change``."""
        return self._first(_LATEST_OF_ROW, of_table=change.table, of_row=change.row_id)

    def latest_undo(self) -> Entry | None:
        """The newest entry that takes another back and is itself in force."""
        return self._first(_LATEST_UNDO)

    def touched_since(self, table: str, row_id: int, since: datetime) -> bool:
        """Whether an entry of that instant or later touched the row of ``table``."""
        return self._first(_TOUCHING, table=table, row_id=row_id, since=since) is not None

    def changes(self, entry_id: int) -> tuple[Change, ...]:
        """What the entry changed, in order; none for another person's entry."""
        if self._newest is not None and self._newest[0] == entry_id:
            return self._newest[1]
        found = self._connection.execute(_CHANGES, {"person_id": self._person_id, "entry_id": entry_id})
        return tuple(Change(table, row_id, _image(before), _image(after)) for table, row_id, before, after in found)

    def find_rows(self, entry_id: int, table: str) -> tuple[int, ...]:
        """The ids of the rows of ``table`` that the entry touched, each once, in order."""
        return tuple(dict.fromkeys(change.row_id for change in self.changes(entry_id) if change.table == table))

    def _keep(self, entry: Entry, changes: Sequence[Change]) -> Entry:
        values = {**ENTRIES.values(entry), "person_id": self._person_id}
        kept = ENTRIES.with_id(entry, self._connection.execute(_ADD_ENTRY, values).scalar())
        rows = list(_change_rows(self._person_id, kept.id, changes))
        if rows:
            self._connection.execute_each(_ADD_CHANGES, rows)
        # What an entry changed is asked for as soon as it is kept, so it need not be read again.
        self._newest = kept.id, tuple(changes)
        return kept

    def _mark_undone(self, entry: Entry, by: Entry, *, in_its_place: bool = False) -> None:
        """The entry is no longer in force. What it had taken back is again, unless ``by`` came in the place of both."""
        self._mark(entry, by.id)
        if entry.undoes is not None:
            self._mark_in_force(self.get(entry.undoes))
        if entry.replaces is not None and not in_its_place:
            self._mark_in_force(self.get(entry.replaces))

    def _mark_in_force(self, entry: Entry) -> None:
        """The entry is in force again, and what it takes back is not."""
        self._mark(entry, None)
        if entry.undoes is not None:
            self._mark_undone(self.get(entry.undoes), entry)
        if entry.replaces is not None:
            self._mark_undone(self.get(entry.replaces), entry, in_its_place=True)

    def _mark(self, entry: Entry, undone_by: int | None) -> None:
        self._connection.execute(_MARK, {"of_person": self._person_id, "of_id": entry.id, "undoing": undone_by})

    def _first(self, statement: Statement, **given: object) -> Entry | None:
        found = self._connection.execute(statement, {"person_id": self._person_id, **given}).first()
        return None if found is None else ENTRIES.record(found)


def _image(text: str | None) -> RawRow | None:
    return None if text is None else json.loads(text)


def _text(image: RawRow | None) -> str | None:
    return None if image is None else json_text(image)


def _change_rows(person_id: int, entry_id: int, changes: Iterable[Change]) -> Iterator[dict[str, Any]]:
    for step, change in enumerate(changes):
        yield {
            "person_id": person_id,
            "entry_id": entry_id,
            "step": step,
            "table": change.table,
            "row_id": change.row_id,
            "before": _text(change.before),
            "after": _text(change.after),
        }
