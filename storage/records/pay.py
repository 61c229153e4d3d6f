"""Paid work: what a job's employer has settled, and what was handed in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from storage.records.choices import PayPeriod, Rounded, RoundingStep, Weekday


@dataclass(frozen=True, slots=True)
class Rounding:
    """To the nearest ``step``; what lies in the middle goes up. Only tenths of an hour have a middle on whole minutes."""

    step: RoundingStep
    what: Rounded = Rounded.PUNCHES


@dataclass(frozen=True, slots=True)
class BreakRule:
    """A day of more than ``after_minutes`` of work is due unpaid breaks of ``minutes`` in all."""

    after_minutes: int
    minutes: int


@dataclass(frozen=True, slots=True)
class Limit:
    """Minutes over ``over_minutes`` pay ``times`` the regular rate."""

    over_minutes: int
    times: Decimal


@dataclass(frozen=True, slots=True)
class OvertimeRules:
    """Limits on a workweek, on each workday, and on the seventh day of a workweek worked without a day off.

    Within each the limits rise. An hour is overtime once: what a daily limit
    took does not count towards the weekly one.
    """

    weekly: tuple[Limit, ...] = ()
    daily: tuple[Limit, ...] = ()
    seventh_day: tuple[Limit, ...] = ()


@dataclass(frozen=True, slots=True)
class Job:
    """A category that is paid work, and what its employer has settled.

    ``week_starts`` is the workweek's, None where it is the person's;
    ``anchor`` any day of a first period of two or four weeks; ``payday_after``
    how many days after a period's last one it is paid. None where nobody said.
    ``month_starts`` is the day of the month on which monthly periods begin.
    ``remind`` tells whether the person wants a word on payday's eve.
    """

    id: int
    category_id: int
    employer: str
    pay_period: PayPeriod = PayPeriod.WEEKLY
    week_starts: Weekday | None = None
    anchor: date | None = None
    payday_after: int | None = None
    rounding: Rounding | None = None
    breaks: tuple[BreakRule, ...] = ()
    overtime: OvertimeRules | None = None
    currency: str = "EUR"
    remind: bool = False
    month_starts: int = 1


@dataclass(frozen=True, slots=True)
class JobRate:
    """What an hour of a job pays from the day ``since`` on, in the job's currency."""

    id: int
    job_id: int
    since: date
    per_hour: Decimal


@dataclass(frozen=True, slots=True)
class DayHandedIn:
    """A day's exact and paid minutes in a job, as they were handed in."""

    day: date
    worked: int
    paid: int


@dataclass(frozen=True, slots=True)
class HandedIn:
    """A job's pay period that was handed in, ``first`` to ``last`` day, with its figures and the rules they came by.

    ``overtime_minutes`` are those of the workweeks that end in it; ``gross`` is the estimate of its pay, None without rates.
    """

    id: int
    job_id: int
    first: date
    last: date
    at: datetime
    days: tuple[DayHandedIn, ...]
    rounding: Rounding | None = None
    breaks: tuple[BreakRule, ...] = ()
    overtime_minutes: int = 0
    gross: Decimal | None = None
    currency: str = "EUR"
