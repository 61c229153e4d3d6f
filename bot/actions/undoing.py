"""Taking back, and taking the taking back back."""

from __future__ import annotations

from bot.actions.refused import refused
from bot.language.meaning import Undo
from bot.voice.replies import Reply, Undone
from storage.desk import Desk
from storage.errors import AlreadyUndone, ChangedSince, NotThere
from storage.records import Entry


def undo(desk: Desk, said: Undo, heard_key: str | None) -> Reply:
    """Takes back the entry said, or the latest that can be. Undoing an undo does the action again."""
    try:
        entry = _meant(desk, said)
        if entry is None:
            raise refused("nothing to undo")
        undoing = desk.journal.undo(entry.id, entry.summary, heard_key)
    except NotThere as missing:
        raise refused("button gone") from missing
    except AlreadyUndone as done:
        raise refused("already undone") from done
    except ChangedSince as changed:
        raise refused("changed since", changed.entry.summary) from changed
    return Undone(entry.summary, undoing.id, again=_undoings(desk, entry) % 2 == 1)


def _meant(desk: Desk, said: Undo) -> Entry | None:
    if said.entry is not None:
        return desk.journal.get(said.entry)
    return desk.journal.latest_undo() if said.again else desk.journal.latest_to_undo()


def _undoings(desk: Desk, entry: Entry) -> int:
    """How many takings back lie between the entry and the action it is about."""
    count = 0
    while entry.undoes is not None:
        entry, count = desk.journal.get(entry.undoes), count + 1
    return count
