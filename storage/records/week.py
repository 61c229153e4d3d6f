"""A person's own week: who, what is fixed, wanted, meant, and spent."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import TypeAlias

from storage.records.choices import ClockStyle, DateOrder, DecimalMark, GoalState, Horizon, Look, Step, TaskState, Weekday

NO_END = date.max

Place: TypeAlias = tuple[float, float]
"""Latitude and longitude in degrees."""


@dataclass(frozen=True, slots=True)
class Person:
    """Who chats. ``address`` says where: ``telegram:4711``, ``terminal:me``.

    Until the local day ``quiet_until`` nothing comes unasked; ``NO_END`` is until they say otherwise.
    ``pictures``: whether one comes with the recap. ``travel_minutes`` are allowed before and after
    every commitment of which nothing else was said.
    """

    id: int
    address: str
    zone: str
    joined: datetime
    place_name: str | None = None
    latitude: float | None = None
    longitude: float | None = None
    waking_start: time = time(6)
    waking_end: time = time(21)
    week_starts: Weekday = Weekday.MONDAY
    date_order: DateOrder = DateOrder.DAY_MONTH
    morning_at: time = time(6)
    evening_at: time = time(20)
    recap_at: time = time(18)
    free_share: int = 20
    step: Step = Step.NEW
    holidays: bool = True
    look: Look = Look.LIGHT
    pictures: bool = True
    decimals: DecimalMark = DecimalMark.POINT
    quiet_until: date | None = None
    travel_minutes: int = 0
    clock_style: ClockStyle = ClockStyle.TWENTY_FOUR

    @property
    def place(self) -> Place | None:
        """Where they are, as far as they said."""
        return None if self.latitude is None or self.longitude is None else (self.latitude, self.longitude)


@dataclass(frozen=True, slots=True)
class Section:
    """Groups goals and categories."""

    id: int
    name: str


@dataclass(frozen=True, slots=True)
class Category:
    """What hours are spent on. ``colour`` is a CSS3 colour name (RFC 7986)."""

    id: int
    name: str
    section: str
    aliases: tuple[str, ...] = ()
    colour: str = "grey"


@dataclass(frozen=True, slots=True)
class Commitment:
    """Fixed in time, made with others.

    ``starts`` and ``ends`` are those of the first occurrence. ``zone`` is the
    zone whose wall clock a recurring one follows. ``rule`` is the text of an
    RFC 5545 RRULE without the name, or None. ``except_days`` are the local
    days on which an occurrence was cancelled or moved away. One that is
    ``all_day`` has a day but no time of day: it blocks no hours. Getting there
    takes ``minutes_before``, getting back ``minutes_after``; None where
    nothing was said, so that what the person usually allows holds.
    """

    id: int
    title: str
    starts: datetime
    ends: datetime
    zone: str
    category_id: int | None = None
    rule: str | None = None
    major: bool = True
    outdoors: bool = False
    all_day: bool = False
    except_days: tuple[date, ...] = ()
    cancelled: bool = False
    minutes_before: int | None = None
    minutes_after: int | None = None

    @property
    def blocks_hours(self) -> bool:
        """Whether its hours are taken."""
        return not self.all_day


@dataclass(frozen=True, slots=True)
class Occurrence:
    """One time a commitment takes place: a local ``day`` and the UTC instants of that occurrence."""

    commitment: Commitment
    day: date
    starts: datetime
    ends: datetime

    @property
    def title(self) -> str:
        """The commitment's."""
        return self.commitment.title

    @property
    def category_id(self) -> int | None:
        """The commitment's."""
        return self.commitment.category_id


@dataclass(frozen=True, slots=True)
class Routine:
    """Something done every week or day, with a length and a preferred window."""

    id: int
    title: str
    minutes: int
    rule: str
    since: date
    window_start: time | None = None
    window_end: time | None = None
    category_id: int | None = None


@dataclass(frozen=True, slots=True)
class Goal:
    """Wanted for the week or month whose first local day is ``period``.

    ``carried`` counts how often it was carried; ``origin_id`` is the goal it
    was carried from.
    """

    id: int
    title: str
    horizon: Horizon
    period: date
    section: str
    category_id: int | None = None
    estimate_minutes: int | None = None
    state: GoalState = GoalState.OPEN
    carried: int = 0
    origin_id: int | None = None


@dataclass(frozen=True, slots=True)
class Task:
    """Meant for ``day``; ``number`` names it on that day; ``pushes`` are the days it was pushed from.

    ``settled`` is the local day on which it was closed or dropped, None while it is open.
    """

    id: int
    title: str
    day: date
    number: int
    category_id: int | None = None
    goal_id: int | None = None
    estimate_minutes: int | None = None
    state: TaskState = TaskState.OPEN
    pushes: tuple[date, ...] = ()
    outdoors: bool = False
    settled: date | None = None


@dataclass(frozen=True, slots=True)
class Block:
    """Planned hours on ``day``, UTC instants, for a task, a routine or a goal; only proposed until ``accepted``."""

    id: int
    day: date
    starts: datetime
    ends: datetime
    title: str
    category_id: int | None = None
    task_id: int | None = None
    routine_id: int | None = None
    goal_id: int | None = None
    accepted: bool = False


@dataclass(frozen=True, slots=True)
class Target:
    """Hours wanted per week in a category, from the week of ``since`` on. One with neither bound ends those before it."""

    id: int
    category_id: int
    since: date
    at_least_minutes: int | None = None
    at_most_minutes: int | None = None

    @property
    def wants_anything(self) -> bool:
        """Whether it has a bound at all."""
        return self.at_least_minutes is not None or self.at_most_minutes is not None


@dataclass(frozen=True, slots=True)
class Stint:
    """Hours really spent. ``minutes`` are net of ``break_minutes``; ``day`` is the local day it counts for."""

    id: int
    category_id: int
    day: date
    minutes: int
    starts: datetime | None = None
    ends: datetime | None = None
    break_minutes: int = 0
    task_ids: tuple[int, ...] = ()
    note: str | None = None


@dataclass(frozen=True, slots=True)
class SickDay:
    """A local day on which the person was sick."""

    id: int
    day: date


@dataclass(frozen=True, slots=True)
class Work:
    """What a stint says of the tasks it was spent on: net ``minutes`` on the local ``day``."""

    day: date
    minutes: int
    task_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Running:
    """A stint that has been clocked in and not out."""

    id: int
    category_id: int
    starts: datetime
