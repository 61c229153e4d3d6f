"""Taking back, and taking the taking back back."""

from __future__ import annotations

from bot.actions.calendars import remove_calendar
from bot.actions.last_answer import nothing_done
from bot.actions.naming import category_name
from bot.actions.refused import refused
from bot.actions.schedule import plan_if_moved
from bot.language.meaning import Undo
from bot.language.wire import from_json
from bot.voice.privacy_said import NOTHING
from bot.voice.replies import NothingErased, Refusal, Reply, Together, UndoAsked, Undone
from storage.desk import Desk
from storage.errors import AlreadyUndone, ChangedSince, NotThere
from storage.records import Author, Calendar, Entry, Stint

LOOKED_BACK = 20
"""Entries before one that stays among which one is looked for that can be taken back."""


def undo(desk: Desk, said: Undo, heard_key: str | None) -> Reply:
    """Takes back the entry said, or the latest that can be. Undoing an undo does the action again."""
    if said == Undo() and _keeps_all(desk):
        return NothingErased()
    before = desk.person
    try:
        entry = _meant(desk, said)
        if entry is None:
            raise refused("nothing to undo")
        nothing = nothing_done(desk) if said == Undo() else None
        if nothing is not None:
            return UndoAsked(entry.summary, entry.id, of=nothing)
        undoing = desk.journal.undo(entry.id, entry.summary, heard_key)
    except NotThere as missing:
        raise refused("button gone") from missing
    except AlreadyUndone as done:
        raise refused("already undone") from done
    except ChangedSince as changed:
        calendar = _calendar_of(desk, changed.entry)
        if calendar is not None:
            # It was read again since, and is no longer as it was; what is wanted is that it goes.
            return remove_calendar(desk, calendar)
        return _stays(desk, changed.entry, said)
    plan_if_moved(desk, before)
    again = _undoings(desk, entry) % 2 == 1
    return Undone(entry.summary, undoing.id, again, () if again else _standing(desk, entry))


def _standing(desk: Desk, entry: Entry) -> tuple[tuple[str, Stint], ...]:
    """The hours that the entry had changed or taken away, as they are again."""
    rows = [change.row_id for change in desk.journal.changes(entry.id) if change.table == "stints" and change.before is not None]
    stints = sorted((stint for row in rows if (stint := desk.stints.find(row)) is not None), key=lambda each: (each.day, each.id))
    return tuple((category_name(desk, each.category_id) or "", each) for each in stints)


def _stays(desk: Desk, entry: Entry, said: Undo) -> Reply:
    """Who has changed since what stays and, where only "undo" was said, what was done before it and can be taken back by a tap."""
    by = {last.by for change in desk.journal.changes(entry.id) if (last := desk.journal.changed_last_by(change)) and last.id > entry.id}
    refusal = Refusal("carried on since" if by == {Author.ROUND} else "changed since", entry.summary)
    earlier = _earlier(desk, entry) if said == Undo() else None
    return refusal if earlier is None else Together((refusal, UndoAsked(earlier.summary, earlier.id, of="earlier")))


def _earlier(desk: Desk, entry: Entry) -> Entry | None:
    """The newest of the entries shortly before it that can be taken back."""
    for _ in range(LOOKED_BACK):
        earlier = desk.journal.earlier_to_undo(entry.id)
        if earlier is None or desk.journal.stands(earlier):
            return earlier
        entry = earlier
    return None


def make_way(desk: Desk, said: Undo) -> tuple[Reply, ...]:
    """Takes back the entry said as a part of what comes in its place, so that one undo brings it back. What is gone already is left."""
    before, entry = desk.person, _meant(desk, said)
    if entry is None or entry.undone_by is not None:
        return ()
    try:
        desk.journal.put_back(entry.id)
    except ChangedSince as changed:
        raise refused("changed since", changed.entry.summary) from changed
    plan_if_moved(desk, before)
    return (Undone(entry.summary, entry.id),)


def ask_to_undo(desk: Desk, said: Undo, edited: Entry | None) -> Reply:
    """What a message edited to "undo" or "redo" gives that has nothing in force itself: it takes nothing back before a tap says so.

    ``edited`` is what the message had done, if it had done anything.
    """
    if edited is not None and edited.undone_by is not None and not said.again:
        return Refusal("already undone")
    entry = _meant(desk, said)
    if entry is None:
        return Refusal("nothing to undo")
    return UndoAsked(entry.summary, entry.id, of="message to redo" if said.again else "message")


def _keeps_all(desk: Desk) -> bool:
    """Whether the last thing the person was told is the question whether to erase everything, which is put down then as by its button."""
    latest = desk.outbox.latest()
    rows = latest.buttons if latest else ()
    keeps = ((row, place) for row, buttons in enumerate(rows) for place, each in enumerate(buttons) if from_json(each.does) == NOTHING)
    at = next(keeps, None)
    if latest is None or at is None:
        return False
    desk.taps.note(latest.id, *at, None)
    return True


def _calendar_of(desk: Desk, entry: Entry) -> Calendar | None:
    """The calendar that came with the entry, if it is still there."""
    came = (change.row_id for change in desk.journal.changes(entry.id) if change.table == "calendars" and change.before is None)
    return next((found for id in came if (found := desk.calendars.find(id)) is not None), None)


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
