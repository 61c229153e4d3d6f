"""Replies about hours."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Literal

from bot.language.meaning import Amend, Log, SaidStint
from bot.voice.replies.reply import Reply
from storage.records import Goal, Running, Stint, Task


@dataclass(frozen=True, slots=True)
class LoggedItem:
    """``total`` is the category's minutes of that day, this stint included; ``closed`` the titles of tasks closed with it.

    ``why`` and ``began`` say how a category and a start were chosen that were left out; ``paid`` that they are of a job.
    ``tasks`` are those it was spent on, with what is left of their estimates; ``routine`` is the one that it says was done,
    which ``learned`` its category from it; ``goal`` the one of the week that they were spent on, with the minutes ``left`` of its estimate.
    """

    category: str
    stint: Stint
    total: int
    why: Literal["clocked in", "planned"] | None = None
    closed: tuple[str, ...] = ()
    began: Literal["planned", "last hours"] | None = None
    paid: bool = False
    tasks: tuple[Task, ...] = ()
    routine: str | None = None
    learned: bool = False
    goal: Goal | None = None
    left: int = 0


@dataclass(frozen=True, slots=True)
class Logged(Reply):
    """``by_plan``: told by the plan alone; ``ahead`` is what was planned too, is still to come, and was not logged.

    Nor was ``in_part``, of which hours told before take a part.
    """

    items: tuple[LoggedItem, ...]
    corrected: bool = False
    by_plan: bool = False
    ahead: tuple[SaidStint, ...] = ()
    in_part: tuple[SaidStint, ...] = ()


@dataclass(frozen=True, slots=True)
class TakenOut(Reply):
    """Hours that are noted no longer; ``total`` is what the category has left of that day, in minutes."""

    category: str
    stint: Stint
    total: int


@dataclass(frozen=True, slots=True)
class HoursClash(Reply):
    """Hours said overlap hours kept; nothing was logged."""

    said: Log
    kept: tuple[tuple[str, Stint], ...]


@dataclass(frozen=True, slots=True)
class NotedAlready(Reply):
    """A length said is to the minute what its category has that day, so it may be the same hours told again; nothing was logged."""

    said: Log
    category: str
    day: date
    kept: tuple[Stint, ...]


@dataclass(frozen=True, slots=True)
class WhichHours(Reply):
    """A length is set right where the category has several hours of that day, and nothing says of which it is."""

    said: Amend
    category: str
    day: date
    there: tuple[Stint, ...]


@dataclass(frozen=True, slots=True)
class DayTooFull(Reply):
    """With these hours the day would hold ``minutes``, more than the ``most`` it has."""

    said: Log
    day: date
    minutes: int
    most: int


@dataclass(frozen=True, slots=True)
class StillToCome(Reply):
    """Hours said for a time that has not been yet, or that is ``under_way``. ``said`` is None for hours only to be corrected so."""

    said: Log | None
    category: str
    day: date
    start: time | None
    end: time | None
    under_way: bool = False


@dataclass(frozen=True, slots=True)
class ClockedIn(Reply):
    category: str
    starts: datetime
    ended: LoggedItem | None = None


@dataclass(frozen=True, slots=True)
class LongClock(Reply):
    """The clock ran so long that it was probably forgotten; nothing was logged. ``hours`` are what it would log."""

    hours: Log
    starts: datetime
    ends: datetime


@dataclass(frozen=True, slots=True)
class ClockVoided(Reply):
    """The clock was stopped and its hours were not kept."""

    category: str
    starts: datetime


@dataclass(frozen=True, slots=True)
class AlreadyRunning(Reply):
    category: str
    running: Running
