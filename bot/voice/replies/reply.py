"""What every reply is, and those that are about replying itself."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from bot.language.meaning import Courtesy, Meaning, Show
from bot.rules.parts import Part
from storage.records import Stint


class Reply:
    """What every reply is. It has no fields of its own."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Question(Reply):
    """Truly ambiguous: one button a choice."""

    choices: tuple[Meaning, ...]


@dataclass(frozen=True, slots=True)
class NotUnderstood(Reply):
    """``stays`` is what an edited message did before and still stands."""

    text: str
    near: tuple[str, ...]
    stays: str | None = None


@dataclass(frozen=True, slots=True)
class Acknowledged(Reply):
    """Someone was polite, in this part of the day."""

    courtesy: Courtesy
    part: Part


@dataclass(frozen=True, slots=True)
class Together(Reply):
    """Several replies to one message."""

    parts: tuple[Reply, ...]


@dataclass(frozen=True, slots=True)
class Enclosing(Reply):
    """Words that come with a file called ``name``. ``shown`` says what is in it, with nothing left open; it is made when it is carried."""

    words: Reply
    shown: Show
    name: str


@dataclass(frozen=True, slots=True)
class Refusal(Reply):
    """Nothing was changed. ``reason`` names the sentence, ``about`` what it is about."""

    reason: Literal[
        "no such task", "no tasks open", "no goals open", "no such category", "no such commitment", "no such goal",
        "no hours to correct", "nothing runs", "clock in the future", "no time at all", "end before start", "nothing to undo",
        "already undone", "changed since", "bad value", "no such setting", "button gone", "already chosen", "file not read", "too long",
        "no such section", "past commitment",
        "nothing that day", "calendar there", "no such calendar", "no link", "went wrong", "edited since",
        "most below least", "no later hour", "not planned", "nothing planned", "nothing waits", "nothing but break", "not free then",
        "category used", "no job", "no jobs", "job there", "new job not read", "no such step", "break too long", "limits fall", "no payday",
        "name taken", "too long a name", "carried on since", "payday moves",
        "no such routine", "no such target", "on the way then", "which commitment", "several under a number", "nothing to accept",
        "only older hours", "no hours there", "no start known", "nothing planned today", "no routine today",
        "routine another day", "nothing called off", "not called off", "no such hours",
    ]  # fmt: skip
    about: str = ""
    known: tuple[str, ...] = ()

    @property
    def leaves_undone(self) -> bool:
        """Whether something was wanted. After a tap too many, what was done before it is still what the person has in mind."""
        return self.reason not in ("already chosen", "button gone")


@dataclass(frozen=True, slots=True)
class UndoAsked(Reply):
    """Nothing was done by what was asked back, or by a message now edited; the fields tell of what was done, or taken back, before."""

    summary: str
    entry: int
    of: Literal["hours", "earlier", "question", "message", "message to redo"] = "hours"


@dataclass(frozen=True, slots=True)
class Undone(Reply):
    """``summary`` is the first line of what was taken back or, when ``again``, done again; ``entry`` tells of it.

    ``stands`` are the hours, by category, that are as they were before that.
    """

    summary: str
    entry: int
    again: bool = False
    stands: tuple[tuple[str, Stint], ...] = ()


@dataclass(frozen=True, slots=True)
class BackAgain(Reply):
    """The person had blocked the bot ``since`` then (UTC); so many messages could not be sent."""

    since: datetime
    unsent: int


@dataclass(frozen=True, slots=True)
class Unwelcome(Reply):
    """The one neutral line for who may not talk."""
