"""What the person asks to see."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from bot.rules.spans import Span
from bot.rules.weather import DayWeather
from bot.rules.weather_danger import Caution
from bot.voice.replies.plan import PlanLine
from bot.voice.replies.reply import Reply
from storage.records import Goal, Occurrence, Stint, Task


@dataclass(frozen=True, slots=True)
class FreeHours:
    """Minutes of a day that are free, and how many of them may be filled."""

    minutes: int
    to_fill: int

    @property
    def kept(self) -> int:
        """Minutes that stay free."""
        return self.minutes - self.to_fill


@dataclass(frozen=True, slots=True)
class TasksView(Reply):
    """All the tasks of a day."""

    day: date
    tasks: tuple[Task, ...]


@dataclass(frozen=True, slots=True)
class OpenTasks(Reply):
    """The open tasks of several days, by day; ``span`` is None for those of all days."""

    tasks: tuple[Task, ...]
    span: tuple[date, date] | None = None


@dataclass(frozen=True, slots=True)
class TimesView(Reply):
    """When something takes place within a span: paid work where ``about`` is None; ``after`` is the next time where there is none."""

    about: str | None
    span: tuple[date, date]
    there: tuple[Occurrence, ...]
    after: Occurrence | None = None


@dataclass(frozen=True, slots=True)
class DayView(Reply):
    """All that a day holds. ``weather`` is None with ``weather_missing`` saying why; ``runs_in`` began the day before and takes hours.

    ``planned`` is what was accepted of its plan and is not over.
    """

    day: date
    occurrences: tuple[Occurrence, ...]
    tasks: tuple[Task, ...]
    goals: tuple[Goal, ...]
    free: FreeHours
    needed_minutes: int
    spent: tuple[tuple[str, int], ...] = ()
    running: tuple[str, datetime] | None = None
    weather: DayWeather | None = None
    weather_missing: Literal["no place", "no forecast", "not asked"] = "not asked"
    cautions: tuple[tuple[Occurrence, tuple[Caution, ...]], ...] = ()
    holiday: str | None = None
    runs_in: tuple[Occurrence, ...] = ()
    planned: tuple[PlanLine, ...] = ()


@dataclass(frozen=True, slots=True)
class WhatsNext(Reply):
    """What is ``under_way`` of a day and what is ``ahead``, fixed or planned, the earliest first."""

    view: DayView
    under_way: tuple[PlanLine, ...]
    ahead: tuple[PlanLine, ...]


@dataclass(frozen=True, slots=True)
class HowFull(Reply):
    """Whether a day is full, or, with ``is_free``, free: the ``minutes`` that can still be filled, below zero where it holds too much."""

    view: DayView
    minutes: int
    is_free: bool


@dataclass(frozen=True, slots=True)
class FreeTimes(Reply):
    """When a day is free: its stretches in order."""

    view: DayView
    spans: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class CategoryHours:
    """Minutes of a category over a span; targets are those of one week, or None.

    ``before`` are minutes of an earlier span, ``usual`` the mean of a week; None where nothing is compared.
    """

    category: str
    spent: int
    planned: int = 0
    at_least: int | None = None
    at_most: int | None = None
    before: int | None = None
    usual: int | None = None


@dataclass(frozen=True, slots=True)
class WeekDay:
    """``too_many`` when the day holds more major commitments than is good; ``runs_in`` began the day before and takes hours."""

    day: date
    occurrences: tuple[Occurrence, ...]
    too_many: bool
    tasks: int = 0
    holiday: str | None = None
    runs_in: tuple[Occurrence, ...] = ()


@dataclass(frozen=True, slots=True)
class WeekView(Reply):
    days: tuple[WeekDay, ...]
    goals: tuple[Goal, ...]


@dataclass(frozen=True, slots=True)
class HoursView(Reply):
    """Hours of a span, compared with those of the span ``before``, its first and last day, where it had any.

    ``parts`` are the months or years of a long one with their minutes, ``entries`` the hours of a single day as they were noted.
    """

    first: date
    last: date
    hours: tuple[CategoryHours, ...]
    only: str | None = None
    before: tuple[date, date] | None = None
    parts: tuple[tuple[date, int], ...] = ()
    entries: tuple[tuple[str, Stint], ...] = ()


@dataclass(frozen=True, slots=True)
class MonthView(Reply):
    """A month, its hours beside those of ``before``, the first and last day they are compared with, where it had any."""

    month: date
    hours: tuple[CategoryHours, ...]
    goals: tuple[Goal, ...]
    before: tuple[date, date] | None = None
    busiest: tuple[tuple[date, int], ...] = ()


@dataclass(frozen=True, slots=True)
class GoalsView(Reply):
    """Open goals of a week and of a month, by section, or of the ``only`` one asked for. The days are their first ones."""

    week: tuple[Goal, ...]
    month: tuple[Goal, ...]
    week_starts: date
    month_starts: date
    only: Literal["week", "month"] | None = None
