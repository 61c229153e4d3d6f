"""What a reply can mean: one frozen value a kind.

Days are local dates, times local times of day, lengths whole minutes. A field that the reply does not fill is None.
``ids`` fields are filled by buttons only: they name rows exactly, where a typed reply names them by number or words.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, time
from typing import Literal, TypeAlias, Union

from bot.language.calendar_meaning import CalendarMeaning
from bot.language.pay_meaning import PayMeaning
from bot.language.pick import Pick
from bot.language.plan_meaning import PlanMeaning
from bot.language.standing_meaning import StandingMeaning


@dataclass(frozen=True, slots=True)
class SaidStint:
    """Hours as said; ``minutes`` are net of the break. ``why`` says how a left-out category was chosen, ``began`` how a left-out start.

    Without a category it is that of the first of ``tasks``, or of the routine whose title the note is.
    """

    category: str | None
    day: date
    minutes: int
    start: time | None = None
    end: time | None = None
    break_minutes: int = 0
    tasks: tuple[int, ...] = ()
    note: str | None = None
    why: Literal["clocked in", "planned"] | None = None
    began: Literal["planned", "last hours"] | None = None
    task_ids: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Log:
    """``despite`` says what to do where hours are in the way; ``ends_clock`` that these are the hours of the clock that runs.

    ``corrects`` are kept hours in whose place these come.
    """

    stints: tuple[SaidStint, ...]
    despite: Literal["keep both", "replace", "trim"] | None = None
    ends_clock: bool = False
    corrects: int | None = None


@dataclass(frozen=True, slots=True)
class ClockIn:
    category: str | None
    time: time | None = None


@dataclass(frozen=True, slots=True)
class ClockOut:
    """``day`` is that of ``time`` where it is said. ``void`` ends the clock and keeps no hours."""

    category: str | None = None
    time: time | None = None
    day: date | None = None
    void: bool = False


@dataclass(frozen=True, slots=True)
class Close:
    """``minutes`` are logged too, for ``day`` or today; on ``category``, or on the task's own. 0: of a routine no hours are."""

    tasks: Pick
    minutes: int | None = None
    category: str | None = None
    day: date | None = None


@dataclass(frozen=True, slots=True)
class Drop:
    tasks: Pick


@dataclass(frozen=True, slots=True)
class Reopen:
    tasks: Pick


@dataclass(frozen=True, slots=True)
class Push:
    """``to`` is a day, next week's goals ("week"), this week's, or a month's. ``instead``: a goal was meant for then all along."""

    tasks: Pick
    to: date | Literal["week", "this week", "month", "next month"]
    instead: bool = False


@dataclass(frozen=True, slots=True)
class AddTask:
    """``remind_at`` is the time at which a reminder was asked for; none comes, and the answer says so."""

    title: str
    day: date
    category: str | None = None
    estimate_minutes: int | None = None
    goal: str | None = None
    goal_id: int | None = None
    outdoors: bool = False
    remind_at: time | None = None


@dataclass(frozen=True, slots=True)
class AddGoal:
    """``period`` is the first day of a later week or month that it is for; None is the one that is being planned."""

    title: str
    horizon: Literal["week", "month"]
    category: str | None = None
    section: str | None = None
    estimate_minutes: int | None = None
    period: date | None = None


@dataclass(frozen=True, slots=True)
class AddCommitment:
    """``loose``: no "every" was said; only the coming days may be meant. ``instead``: that day's moves. ``another``: it is one more."""

    title: str
    day: date
    start: time | None = None
    end: time | None = None
    category: str | None = None
    rule: str | None = None
    major: bool = True
    outdoors: bool = False
    minutes_before: int | None = None
    minutes_after: int | None = None
    loose: bool = False
    instead: bool = False
    another: bool = field(default=False, compare=False)


@dataclass(frozen=True, slots=True)
class Move:
    """Moves the commitment that ``words`` name. ``id`` and ``from_day`` name one occurrence exactly.

    ``or_hours``: it may be hours already logged that are set right. ``by``: minutes later, or earlier below 0. ``keeps_end``: as it was.
    """

    words: str | None
    day: date | None
    start: time | None = None
    end: time | None = None
    id: int | None = None
    from_day: date | None = None
    or_hours: bool = False
    by: int | None = None
    keeps_end: bool = False


@dataclass(frozen=True, slots=True)
class Cancel:
    """``last`` is the last of several days from ``day`` on. ``called_off``: an event of a calendar leaves the person's own days."""

    words: str | None
    day: date | None = None
    start: time | None = None
    end: time | None = None
    id: int | None = None
    last: date | None = None
    called_off: bool = False


@dataclass(frozen=True, slots=True)
class AddRoutine:
    title: str
    minutes: int
    rule: str
    window_start: time | None = None
    window_end: time | None = None
    category: str | None = None


@dataclass(frozen=True, slots=True)
class SetTarget:
    category: str
    at_least_minutes: int | None = None
    at_most_minutes: int | None = None


What: TypeAlias = Literal[
    "day", "week", "month", "hours", "goals", "timesheet", "settings", "calendars", "routines",
    "help", "job", "recap", "week_picture", "hours_picture", "week_page", "export", "tasks", "earnings", "times",
]  # fmt: skip
Paper: TypeAlias = Literal["a4", "letter"]
SheetForm: TypeAlias = Literal["pdf", "xlsx", "csv"]
Form: TypeAlias = Literal[Paper, SheetForm]


@dataclass(frozen=True, slots=True)
class Show:
    """``first`` and ``last`` bound a span, both included.

    ``topic`` is what help was asked on, "tasks" for a day's tasks alone ("next", "full", "free" and "free times" where
    that was asked of it), "all" for a recap that names all, or whose times are asked;
    ``form`` the form of a file; ``back`` counts pay periods.
    """

    what: What
    day: date | None = None
    first: date | None = None
    last: date | None = None
    category: str | None = None
    topic: str | None = None
    form: Form | None = None
    back: int = 0


@dataclass(frozen=True, slots=True)
class Undo:
    """Takes back the latest action, or the one that ``entry`` names; ``again`` brings back what was taken back last."""

    entry: int | None = None
    again: bool = False


@dataclass(frozen=True, slots=True)
class Set:
    """``name`` is a setting's name, ``value`` its new value as text in its normal form."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class Amend:
    """Corrects the latest log, that of the journal entry ``entry``, or the hours of a category or day: only the filled fields change.

    ``either``: the end or the minutes were said as figures with a colon, and may as well be the other end. ``by`` are minutes more,
    or less below 0. ``of_category``, ``of_title`` and ``of_day`` say whose hours, ``id`` which ones exactly, ``in_all`` that it is all.
    """

    minutes: int | None = None
    start: time | None = None
    end: time | None = None
    break_minutes: int | None = None
    day: date | None = None
    category: str | None = None
    entry: int | None = None
    either: bool = False
    by: int | None = None
    of_category: str | None = None
    of_day: date | None = None
    id: int | None = None
    in_all: bool = False
    of_title: str | None = None


@dataclass(frozen=True, slots=True)
class TakeOut:
    """Hours that were noted are to go: those of a category with that length, of ``day`` or of the latest that has such."""

    category: str
    minutes: int
    day: date | None = None


@dataclass(frozen=True, slots=True)
class Several:
    """Different things in one message, in their order."""

    parts: tuple[Meaning, ...]


@dataclass(frozen=True, slots=True)
class Ask:
    """Truly ambiguous: what it may mean, likeliest first."""

    choices: tuple[Meaning, ...]


Courtesy: TypeAlias = Literal["thanks", "greeting", "goodbye", "agreed"]


@dataclass(frozen=True, slots=True)
class Unknown:
    """Not understood as a reply; ``near`` are replies close to it that would have been. It may be a mere courtesy."""

    near: tuple[str, ...] = field(default=())
    courtesy: Courtesy | None = None


Meaning: TypeAlias = Union[
    Log, ClockIn, ClockOut, Amend, TakeOut,
    Close, Drop, Reopen, Push, AddTask, AddGoal,
    AddCommitment, Move, Cancel, AddRoutine, SetTarget, CalendarMeaning, PayMeaning, StandingMeaning,
    PlanMeaning,
    Show, Undo, Set, Several, Ask, Unknown,
]  # fmt: skip
