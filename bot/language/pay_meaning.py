"""What a reply can mean for paid work.

``category`` is the job's; None where it was left out. Money and multiples are decimal text ("14.50"), so that nothing of them is lost.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias, Union


@dataclass(frozen=True, slots=True)
class NewJob:
    """A category becomes paid work. ``paid`` is a pay period's name; ``anchor`` a day of a first period of weeks, ``month_starts``
    the day on which months of pay begin. ``per_hour`` is what an hour pays. ``left`` are the words that were not understood.
    """

    name: str
    employer: str | None = None
    paid: str | None = None
    anchor: date | None = None
    month_starts: int | None = None
    per_hour: str | None = None
    currency: str | None = None
    left: str | None = None


@dataclass(frozen=True, slots=True)
class SetRate:
    """An hour pays ``per_hour`` from the day ``since`` on."""

    category: str | None
    per_hour: str
    since: date | None = None
    currency: str | None = None


@dataclass(frozen=True, slots=True)
class SetRounding:
    """``step`` in minutes; None for no rounding."""

    category: str | None
    step: int | None
    what: Literal["each punch", "each day"] = "each punch"


@dataclass(frozen=True, slots=True)
class SetBreak:
    """A day of more than ``after_minutes`` is due a break of ``minutes``; without the former, no break is taken off."""

    category: str | None
    minutes: int = 0
    after_minutes: int | None = None


@dataclass(frozen=True, slots=True)
class SetPayPeriod:
    """``paid`` is a pay period's name; ``anchor`` and ``month_starts`` as of a new job."""

    category: str | None
    paid: str
    anchor: date | None = None
    month_starts: int | None = None


@dataclass(frozen=True, slots=True)
class SetPayday:
    """So many days after a period's last one, or ``on`` a day of the month; neither where it is not to be known."""

    category: str | None
    days_after: int | None
    on: int | None = None


@dataclass(frozen=True, slots=True)
class SetOvertime:
    """Minutes over ``over_minutes`` of a week, a day or a seventh day pay ``times`` the rate; without both there is no overtime."""

    category: str | None
    over_minutes: int | None = None
    times: str | None = None
    of: Literal["week", "day", "seventh day"] = "week"


@dataclass(frozen=True, slots=True)
class SetJobWord:
    """The first day of the workweek, the currency or the employer, as text."""

    category: str | None
    name: Literal["workweek", "currency", "employer"]
    value: str


@dataclass(frozen=True, slots=True)
class RemindPayday:
    """Whether a word comes on payday's eve; without a category, for every job."""

    on: bool
    category: str | None = None


@dataclass(frozen=True, slots=True)
class HandIn:
    """A period was handed in: the days said, else the one that lies ``back`` periods before today's."""

    category: str | None
    first: date | None = None
    last: date | None = None
    back: int = 0


@dataclass(frozen=True, slots=True)
class SendTimesheet:
    """A period's timesheet as files; every form of them where none is said."""

    category: str | None
    first: date | None = None
    last: date | None = None
    back: int = 0
    forms: tuple[str, ...] = ()


PayMeaning: TypeAlias = Union[
    NewJob, SetRate, SetRounding, SetBreak, SetPayPeriod, SetPayday, SetOvertime, SetJobWord, RemindPayday, HandIn, SendTimesheet
]
