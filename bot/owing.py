"""Reply -> a message owed: the one way to speak."""

from __future__ import annotations

from functools import partial

from bot.actions.handed_in import unsettled_by
from bot.actions.knowing import context_of
from bot.language.wire import to_json
from bot.voice.manners import manners_of
from bot.voice.message import Message, with_lines, with_undo
from bot.voice.replies import DayOffOffered, Enclosing, Greeting, Refusal, Reply, Together, Undone
from bot.voice.say import say
from bot.voice.timesheet_said import unsettled_lines
from storage.desk import Desk
from storage.records import Author, Button, Parcel, ParcelKind

WELCOME = "welcome"
"""The round that messages of the first conversation belong to."""


def owe(
    desk: Desk, reply: Reply, heard_key: str | None = None, *, round: str | None = None, silent: bool = False, edits: int | None = None
) -> Parcel:
    """Words ``reply``, closes the desk's changes into one journal entry, and owes the message in the same transaction.

    A person's own action that changed something carries an Undo button. ``edits`` is the id of the parcel to rewrite.
    A file is not made here: the parcel says what it encloses.
    """
    first, *more = _messages(reply)
    context, manners = partial(context_of, desk), manners_of(desk.person, desk.now)
    message = say(first, manners, context)
    entry_id = _entry_of(desk, first, message, heard_key)
    changes = desk.journal.changes(entry_id)
    message = with_lines(message, unsettled_lines(unsettled_by(desk, changes), manners))
    if heard_key is not None and not isinstance(first, Greeting) and changes:
        message = with_undo(message, entry_id)
    owed = desk.outbox.owe(_parcel(desk, first, message, entry_id, round, silent, edits))
    for each in more:
        desk.outbox.owe(_parcel(desk, each, say(each, manners, context), entry_id, round, silent))
    return owed


def _messages(reply: Reply) -> tuple[Reply, ...]:
    """What takes a message of its own: a message holds one file at most."""
    if not isinstance(reply, Together):
        return (reply,)
    files = tuple(part for part in reply.parts if isinstance(part, Enclosing))
    words = tuple(part for part in reply.parts if not isinstance(part, Enclosing))
    return (Together(words), *files) if words else files


def _parcel(desk: Desk, reply: Reply, message: Message, entry_id: int, round: str | None, silent: bool, edits: int | None = None) -> Parcel:
    return Parcel(
        id=0,
        person_id=desk.person.id,
        address=desk.person.address,
        kind=_kind(reply, edits),
        text=message.text,
        written=desk.now,
        bold=message.bold,
        buttons=_buttons(message),
        silent=silent,
        round=round or (WELCOME if _asks(reply) else None),
        file_name=reply.name if isinstance(reply, Enclosing) else None,
        encloses=to_json(reply.shown) if isinstance(reply, Enclosing) else None,
        edits=edits,
        answers=entry_id,
        refuses=_refuses(reply),
    )


def _kind(reply: Reply, edits: int | None) -> ParcelKind:
    if isinstance(reply, Enclosing):
        return ParcelKind.FILE
    return ParcelKind.MESSAGE if edits is None else ParcelKind.EDIT


def _refuses(reply: Reply) -> bool:
    """Whether the reply says of something that the person wanted that it was not done."""
    if isinstance(reply, Together):
        return any(map(_refuses, reply.parts))
    return isinstance(reply, Refusal | DayOffOffered) and reply.leaves_undone


def _asks(reply: Reply) -> bool:
    """Whether the reply ends with a question of the first conversation."""
    return isinstance(reply, Greeting) or (isinstance(reply, Together) and isinstance(reply.parts[-1], Greeting))


def _entry_of(desk: Desk, reply: Reply, message: Message, heard_key: str | None) -> int:
    """The journal entry that tells of what was done; taking something back wrote its own."""
    if isinstance(reply, Undone):
        return reply.entry
    by = Author.ROUND if heard_key is None else Author.PERSON
    return desk.journal.write(message.summary, heard_key, by=by).id


def _buttons(message: Message) -> tuple[tuple[Button, ...], ...]:
    return tuple(tuple(Button(tap.label, to_json(tap.does), tap.one_of) for tap in row) for row in message.buttons)
