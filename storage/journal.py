"""What each action changed, so that it can be told and undone.

``Journal.write`` closes the changes made so far into one entry;
``Journal.undo`` puts them back and is an entry of its own, so it can be undone;
``Journal.put_back`` does so within the next entry, which then replaces the first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import datetime

from storage.connections import Connection
from storage.entries import Entries
from storage.errors import AlreadyUndone, ChangedSince, Refused, Unjournalled
from storage.plain import Change, PlainRows
from storage.records import Author, Entry
from storage.types import RawRow


class Journal(Entries):
    """The journal of one person during one unit of work. ``rows`` is where changes are made and noted."""

    def __init__(self, connection: Connection, person_id: int, now: datetime) -> None:
        super().__init__(connection, person_id)
        self.rows = PlainRows(connection, person_id)
        self._now = now
        self._replaced: Entry | None = None

    def write(self, summary: str, heard_key: str | None, *, by: Author = Author.PERSON) -> Entry:
        """Closes the changes made since the last entry into one, which may have none.

        ``heard_key`` names the person's message that asked for it; rounds pass None and ``by=Author.ROUND``.
        """
        replaced, self._replaced = self._replaced, None
        entry = Entry(0, self._now, summary, heard_key, replaces=replaced.id if replaced else None, by=by)
        written = self._keep(entry, self.rows.take_noted())
        if replaced:
            self._mark_undone(replaced, written, in_its_place=True)
        return written

    def undo(self, entry_id: int, summary: str, heard_key: str | None) -> Entry:
        """Puts every row back as it was before the entry, byte for byte and with its id.

        Gives the entry that tells of it. Undoing that one brings the first back into force.
        Raises NotThere, AlreadyUndone or ChangedSince, and then nothing has changed.
        """
        entry = self._to_take_back(entry_id)
        with self.attempt():
            self._put_back(entry)
        undoing = self._keep(Entry(0, self._now, summary, heard_key, undoes=entry.id), self.rows.take_noted())
        self._mark_undone(entry, undoing)
        return undoing

    def stands(self, entry: Entry) -> bool:
        """Whether all that the entry changed still is as it left it, so that it can be taken back."""
        return self._stand(self.changes(entry.id))

    def put_back(self, entry_id: int) -> None:
        """Takes the entry back, and those it had replaced, as a part of the changes under way: the next ``write`` replaces it.

        Raises NotThere, AlreadyUndone or ChangedSince, and then nothing has changed.
        """
        entry = earlier = self._to_take_back(entry_id)
        with self.attempt():
            self._put_back(entry)
            while earlier.replaces is not None:
                earlier = self.get(earlier.replaces)
                self._put_back(earlier)
        self._replaced = entry

    @contextmanager
    def attempt(self) -> Iterator[None]:
        """On any exception, every change made since the block began is put back, as if it had not been made."""
        noted, replaced, kept = list(self.rows.noted), self._replaced, False
        try:
            with self._connection.begin_nested():
                yield
            kept = True
        finally:
            if not kept:
                self.rows.forget_since(noted)
                self._replaced, self._newest = replaced, None

    def demand_written(self) -> None:
        """Raises Unjournalled when there are changes that no entry tells of."""
        if self.rows.noted:
            raise Unjournalled(tuple(dict.fromkeys(change.table for change in self.rows.noted)))

    def _to_take_back(self, entry_id: int) -> Entry:
        self.demand_written()
        entry = self.get(entry_id)
        if entry.undone_by is not None:
            raise AlreadyUndone(entry)
        return entry

    def _put_back(self, entry: Entry) -> None:
        changes = self.changes(entry.id)
        if not self._stand(changes):
            raise ChangedSince(entry)
        try:
            for change in reversed(changes):
                self.rows.write(Change(change.table, change.row_id, change.after, change.before))
        except Refused as depended_on:
            raise ChangedSince(entry) from depended_on

    def _stand(self, changes: Iterable[Change]) -> bool:
        """Whether every row still is as the last of its changes left it."""
        last = {(change.table, change.row_id): change.after for change in changes}
        return all(_holds(self.rows.read(table, row_id), after) for (table, row_id), after in last.items())


def _holds(row: RawRow | None, image: RawRow | None) -> bool:
    """Whether the row is as in the image. Columns that the image does not know were added by a later schema."""
    if row is None or image is None:
        return row is image
    return all(name in row and row[name] == value for name, value in image.items())
