"""What the last message to the person was about, where the next reply rests on it."""

from __future__ import annotations

from typing import Literal

from bot.language.meaning import AddTask, Log, Meaning
from bot.language.wire import from_json
from storage.desk import Desk
from storage.records import Parcel


def nothing_done(desk: Desk) -> Literal["hours", "question"] | None:
    """What was asked where the last thing the person was told is a question or a refusal, so that there is nothing of it to take back.

    Hours not logged yet, several things it may mean, or what was not understood: its buttons are choices, and none is taken.
    """
    latest = without_effect(desk)
    choices = choices_of(latest) if latest else ()
    if any(isinstance(meaning, Log) and meaning.despite is not None for meaning in choices):
        return "hours"
    return "question" if choices or (latest and latest.refuses) else None


def not_understood(desk: Desk) -> bool:
    """Whether the last thing the person was told is that a reply was not understood: that one is offered to be kept as a task."""
    latest = without_effect(desk)
    return latest is not None and any(isinstance(meaning, AddTask) for meaning in choices_of(latest))


def without_effect(desk: Desk) -> Parcel | None:
    """The last message, where it answers a reply that changed nothing."""
    latest = desk.outbox.latest()
    return None if latest is None or latest.answers is None or desk.journal.changes(latest.answers) else latest


def choices_of(parcel: Parcel) -> tuple[Meaning, ...]:
    """What its buttons do of which only one is of use."""
    return tuple(from_json(button.does) for row in parcel.buttons for button in row if button.one_of)
