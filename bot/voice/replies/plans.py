"""Replies about tasks, goals, and what is fixed in time."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Literal

from bot.language.meaning import AddCommitment, Meaning, Move
from bot.voice.replies.hours import LoggedItem
from bot.voice.replies.reply import Reply
from storage.records import Commitment, Goal, GoalState, Occurrence, Routine, Target, Task, TaskState


@dataclass(frozen=True, slots=True)
class TaskChanged:
    """A task or goal after the change; ``stands`` says how it stood already, when nothing changed for that.

    ``goal_open`` is the open goal whose last open task it was, with ``goal_left`` minutes of its estimate left; ``goal_met`` the one
    that was met with it, ``goal_reopened`` the one that is open again with it.
    Of a goal, ``along`` are the tasks of its title that were settled with it, ``left`` those that serve it and stay open.
    """

    title: str
    stands: TaskState | GoalState | Literal["there", "done"] | None = None
    goal_open: Goal | None = None
    goal_left: int = 0
    goal_met: Goal | None = None
    goal_reopened: Goal | None = None
    along: tuple[Task, ...] = ()
    left: tuple[Task, ...] = ()


@dataclass(frozen=True, slots=True)
class TasksChanged(Reply):
    """``to`` is set for pushes only."""

    verb: Literal["closed", "met", "dropped", "reopened", "pushed", "carried"]
    items: tuple[TaskChanged, ...]
    to: date | Literal["week", "this week", "month", "next month"] | None = None
    logged: LoggedItem | None = None


@dataclass(frozen=True, slots=True)
class TaskAdded(Reply):
    task: Task
    category: str | None
    goal: str | None
    free_minutes: int
    needed_minutes: int
    remind_at: time | None = None


@dataclass(frozen=True, slots=True)
class GoalAdded(Reply):
    goal: Goal
    category: str | None


@dataclass(frozen=True, slots=True)
class CommitmentKept(Reply):
    """A commitment added, or moved from where it was. ``majors`` counts that day's major ones; ``lighter`` are days it could move to.

    ``only`` are the coming days of one that recurs, where these alone may be meant.
    ``beside`` is what was taken as a word on one that was there, and may have been meant as another.
    ``again``: it had been called off.
    """

    commitment: Commitment
    occurrence: Occurrence
    category: str | None
    moved_from: Occurrence | None = None
    end_assumed: bool = False
    majors: int = 0
    too_many: bool = False
    lighter: tuple[date, ...] = ()
    clashes: tuple[str, ...] = ()
    outside_waking: bool = False
    only: tuple[date, ...] = ()
    beside: AddCommitment | None = None
    again: bool = False


@dataclass(frozen=True, slots=True)
class DayOffOffered(Reply):
    """What a day holds on which the person is off: shifts of paid work, other commitments, those of calendars, open tasks.

    ``over`` where the day is past; a ``sick`` day is noted.
    """

    day: date
    sick: bool
    shifts: tuple[Occurrence, ...]
    others: tuple[Occurrence, ...]
    elsewhere: tuple[Occurrence, ...]
    tasks: tuple[Task, ...]
    over: bool = False

    @property
    def leaves_undone(self) -> bool:
        """Whether nothing is changed yet."""
        return not self.sick


@dataclass(frozen=True, slots=True)
class CommitmentCancelled(Reply):
    """``more`` are the other times that were cancelled with it."""

    title: str
    occurrence: Occurrence
    whole_series: bool
    more: tuple[Occurrence, ...] = ()


@dataclass(frozen=True, slots=True)
class OnOtherDays(Reply):
    """What was named is not on that day, or those up to ``last``; ``others`` are the next, each with what may be done instead."""

    title: str
    day: date
    last: date
    others: tuple[tuple[Occurrence, Meaning], ...]


@dataclass(frozen=True, slots=True)
class WhereTo(Reply):
    """A commitment is to be moved, and the reply did not say where to; ``days`` have its part of the day free."""

    occurrence: Occurrence
    days: tuple[date, ...]


@dataclass(frozen=True, slots=True)
class WhichToMove(Reply):
    """Each time that may be meant, what moves it, and whether it was called off."""

    choices: tuple[tuple[Occurrence, Meaning, bool], ...]


@dataclass(frozen=True, slots=True)
class ThereAlready(Reply):
    """One of the name of what is to be added is on that day: ``moving`` has it take place from ``starts`` to ``ends`` instead."""

    occurrence: Occurrence
    starts: datetime
    ends: datetime
    moving: Move
    adding: AddCommitment


@dataclass(frozen=True, slots=True)
class OneOrAll(Reply):
    """A recurring commitment is to be cancelled: this time, or every time?"""

    occurrence: Occurrence


@dataclass(frozen=True, slots=True)
class TravelAllowed(Reply):
    """The way there and back that is allowed for now; ``words`` mark the events of calendars that it holds for."""

    occurrence: Occurrence
    words: str | None = None


@dataclass(frozen=True, slots=True)
class RoutineAdded(Reply):
    """``changed`` tells that one of that title was there."""

    routine: Routine
    category: str | None
    changed: bool = False


@dataclass(frozen=True, slots=True)
class RoutineDone(Reply):
    """A routine is done on ``day``, and no hours are noted of it."""

    title: str
    day: date


@dataclass(frozen=True, slots=True)
class RoutineDropped(Reply):
    routine: Routine


@dataclass(frozen=True, slots=True)
class RoutinesView(Reply):
    """Routines in the order of their numbers, and targets, each with its category."""

    routines: tuple[tuple[Routine, str | None], ...]
    targets: tuple[tuple[Target, str], ...]


@dataclass(frozen=True, slots=True)
class TargetDropped(Reply):
    category: str
    since: date


@dataclass(frozen=True, slots=True)
class TargetKept(Reply):
    target: Target
    category: str
