"""Replies about the plan of a day or a week."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bot.rules.planning.remedies import Remedy
from bot.voice.replies.reply import Reply


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One block; ``number`` is its task's on that day. Instants are UTC."""

    starts: datetime
    ends: datetime
    title: str
    number: int | None = None


@dataclass(frozen=True, slots=True)
class LeftOut:
    """What found no hours, the minutes it wants, what would make it fit, and the next day that has room for a task."""

    title: str
    minutes: int
    remedies: tuple[Remedy, ...] = ()
    task_id: int | None = None
    day: date | None = None


@dataclass(frozen=True, slots=True)
class PlanMade(Reply):
    """A plan to accept or change. ``ratios`` name categories whose estimates were corrected, and by how many times.

    ``proven`` is False where a better plan may exist, as the search was cut short; ``accepted`` is True where all of it is already.
    """

    day: date
    lines: tuple[PlanLine, ...]
    left_out: tuple[LeftOut, ...] = ()
    minutes_left: int = 0
    ratios: tuple[tuple[str, float], ...] = ()
    proven: bool = True
    accepted: bool = False


@dataclass(frozen=True, slots=True)
class PlanAccepted(Reply):
    """The plan as it stands; ``pushed`` is what went to the next day, ``skipped`` what left the plan and comes again by itself.

    It was made ``anew`` where hours of what was accepted were past; ``left_out`` is what found no hours then.
    """

    day: date
    lines: tuple[PlanLine, ...]
    pushed: tuple[str, ...] = ()
    anew: bool = False
    left_out: tuple[LeftOut, ...] = ()
    skipped: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WeekShare:
    """Minutes of a day for a goal or a target."""

    day: date
    title: str
    minutes: int


@dataclass(frozen=True, slots=True)
class WeekShort:
    """Minutes of a goal or a target that the week does not hold, and what would make room for them."""

    title: str
    minutes: int
    at_most: bool
    remedy: Remedy | None = None


@dataclass(frozen=True, slots=True)
class WeekPlanned(Reply):
    """How the goals are spread over the days of a week, and what does not fit.

    ``proven`` is False where a better plan may exist, as the search was cut short; ``all_placed`` tells that the goals with an
    estimate have all of it already, done or as tasks.
    """

    first: date
    last: date
    shares: tuple[WeekShare, ...]
    short: tuple[WeekShort, ...] = ()
    over: tuple[tuple[str, int], ...] = ()
    proven: bool = True
    all_placed: bool = False
