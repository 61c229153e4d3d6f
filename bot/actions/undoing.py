"""Taking back, and taking the taking back back."""

from __future__ import annotations

from bot.actions.refused import refused
from bot.language.meaning import Undo
from bot.voice.replies import Reply, Undone
from storage.desk import Desk
from storage.errors import AlreadyUndone, ChangedSince, NotThere


def undo(desk: Desk, said: Undo, heard_key: str | None) -> Reply:
    """Takes back the entry said, or the latest that can be. Undoing an undo does the action again."""
    try:
        entry = desk.journal.get(said.entry) if said.entry is not None else desk.journal.latest_to_undo()
        if entry is None:
            raise refused("nothing to undo")
        undoing = desk.journal.undo(entry.id, entry.summary, heard_key)
    except NotThere as missing:
        raise refused("button gone") from missing
    except AlreadyUndone as done:
        raise refused("already undone") from done
    except ChangedSince as changed:
        raise refused("changed since", changed.entry.summary) from changed
    return Undone(entry.summary, undoing.id, again=entry.undoes is not None)
