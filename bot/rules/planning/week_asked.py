"""What a week's plan is asked from, and what comes of it. Lengths are whole minutes, days are local."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class DayRoom:
    """How many minutes of ``day`` may still be filled."""

    day: date
    minutes: int


@dataclass(frozen=True, slots=True)
class WeekGoal:
    """A goal that wants ``minutes`` from ``first_day`` to ``last_day``; None is the first or last day of the week.

    ``smallest_minutes`` is the shortest share that one day may have of it,
    None when it must be done on one day or not at all. ``value`` is at least
    1. Raises ValueError for a value or a length below 1.
    """

    key: str
    minutes: int
    value: int = 1
    category_id: int | None = None
    first_day: date | None = None
    last_day: date | None = None
    smallest_minutes: int | None = 30

    def __post_init__(self) -> None:
        if min(self.minutes, self.value, self.smallest_minutes or 1) < 1:
            raise ValueError(f"{self.key}: minutes, value and smallest share are at least 1")


@dataclass(frozen=True, slots=True)
class WeekTarget:
    """Minutes wanted this week in a category, one target a category. ``settled_minutes`` are spent or committed already."""

    key: str
    category_id: int
    at_least_minutes: int | None = None
    at_most_minutes: int | None = None
    settled_minutes: int = 0


@dataclass(frozen=True, slots=True)
class OpenWeek:
    """A week to be planned: its days in order, what is wanted, the goals that matter more before others of equal value."""

    days: tuple[DayRoom, ...]
    goals: tuple[WeekGoal, ...] = ()
    targets: tuple[WeekTarget, ...] = ()


@dataclass(frozen=True, slots=True)
class Share:
    """Minutes of a day for a goal or, where goals do not reach a target, for the target itself."""

    key: str
    day: date
    minutes: int


class Why(StrEnum):
    """Why something is not met in full."""

    ROOM = "the days have too little room"
    AT_MOST = "its category may have no more"


@dataclass(frozen=True, slots=True)
class Short:
    """``minutes`` of a goal or of a target that the week does not hold."""

    key: str
    minutes: int
    why: Why


@dataclass(frozen=True, slots=True)
class Over:
    """A target whose category already has ``minutes`` more than it may have, before anything is planned."""

    key: str
    minutes: int
