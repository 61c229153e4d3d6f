"""The messages that come unasked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bot.rules.in_the_way import InTheWay
from bot.rules.observations import Observation
from bot.rules.planned import Planned
from bot.rules.week_weather import WeekWeather
from bot.voice.replies.pay import NOTHING_TO_NOTE, WorkNotes
from bot.voice.replies.plan import PlanMade
from bot.voice.replies.reply import Reply
from bot.voice.replies.views import CategoryHours, DayView, WeekView
from storage.records import Goal, Task


@dataclass(frozen=True, slots=True)
class MorningMessage(Reply):
    """The day, and what of the day before was planned and has no hours, with its category."""

    view: DayView
    plan: PlanMade
    unlogged: tuple[tuple[str, Planned], ...] = ()
    late: bool = False


@dataclass(frozen=True, slots=True)
class EveningNudge(Reply):
    day: date
    tasks: tuple[Task, ...]
    unlogged: tuple[tuple[str, Planned], ...]
    running: tuple[str, datetime] | None = None
    late: bool = False


@dataclass(frozen=True, slots=True)
class JobSoFar:
    """A job's minutes of its pay period, from its ``first`` day up to the day of the recap."""

    category: str
    first: date
    minutes: int


@dataclass(frozen=True, slots=True)
class TasksOfWeek:
    """How many tasks were closed, pushed from one of its days, and dropped."""

    closed: int = 0
    pushed: int = 0
    dropped: int = 0


@dataclass(frozen=True, slots=True)
class Recap(Reply):
    """The week that ends, or ``so_far`` as it stands. ``weather`` is None where nothing of it was kept.

    The ``whole`` names all planned hours that were not noted. ``sick`` are the days on which the person was.
    """

    first: date
    last: date
    hours: tuple[CategoryHours, ...]
    jobs: tuple[JobSoFar, ...]
    met: tuple[Goal, ...]
    unmet: tuple[Goal, ...]
    tasks: TasksOfWeek = TasksOfWeek()
    in_the_way: tuple[InTheWay, ...] = ()
    weather: WeekWeather | None = None
    observations: tuple[Observation, ...] = ()
    late: bool = False
    work: WorkNotes = NOTHING_TO_NOTE
    so_far: bool = False
    whole: bool = False
    sick: tuple[date, ...] = ()


@dataclass(frozen=True, slots=True)
class WeekAhead(Reply):
    """What comes after the recap."""

    view: WeekView


@dataclass(frozen=True, slots=True)
class MonthRecap(Reply):
    """The month that ends, or ``so_far`` as it stands, its hours beside those of the month before.

    ``to_come`` are the planned minutes that are still ahead, by category.
    """

    month: date
    hours: tuple[CategoryHours, ...]
    met: tuple[Goal, ...]
    unmet: tuple[Goal, ...]
    before: tuple[date, date] | None = None
    late: bool = False
    so_far: bool = False
    to_come: tuple[tuple[str, int], ...] = ()
