"""What a reply can mean for the day plan."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from typing import Literal, TypeAlias, Union

from bot.language.pick import Pick


@dataclass(frozen=True, slots=True)
class MakePlan:
    """Spread what is wanted over the free hours of ``day``, or over the days of its week."""

    over: Literal["day", "week"] = "day"
    day: date | None = None


@dataclass(frozen=True, slots=True)
class AcceptPlan:
    """The proposed plan of a day, by default today, holds."""

    day: date | None = None


@dataclass(frozen=True, slots=True)
class Later:
    """What is picked goes to a later hour of today's plan."""

    tasks: Pick


@dataclass(frozen=True, slots=True)
class NotToday:
    """What is picked leaves today's plan."""

    tasks: Pick


@dataclass(frozen=True, slots=True)
class Swap:
    """Two tasks of today's plan change places."""

    first: int
    second: int


@dataclass(frozen=True, slots=True)
class Place:
    """What is picked is planned for these hours of today."""

    tasks: Pick
    start: time
    end: time


@dataclass(frozen=True, slots=True)
class DayOff:
    """The person does not work on ``day``. That alone changes nothing."""

    day: date
    sick: bool = False


@dataclass(frozen=True, slots=True)
class AsPlanned:
    """The hours that were planned on ``day``: of ``category``, of what ``words`` name, or all. The break comes off one."""

    day: date
    category: str | None = None
    words: str | None = None
    break_minutes: int = 0


@dataclass(frozen=True, slots=True)
class SameHours:
    """The hours of today are those that were noted of ``day``, of ``category`` or all."""

    day: date
    category: str | None = None


PlanMeaning: TypeAlias = Union[AsPlanned, SameHours, MakePlan, AcceptPlan, Later, NotToday, Swap, Place, DayOff]
