"""What a job's employer has settled: when it pays, how it rounds, what it takes off, what it pays more for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Final

from bot.rules.local_time import ONE_DAY
from bot.rules.pay.periods import ANCHOR, pay_period_of
from storage.records import BreakRule, Job, JobRate, Limit, OvertimeRules, PayPeriod, Rounding, Weekday

SHORTEST_MONTH: Final = 28
LONGEST_WAIT: Final = 62
"""Days between a period's end and its payday; nobody waits longer."""

LIMITS: Final = {"week": "weekly", "day": "daily", "seventh day": "seventh_day"}
"""What people call each kind of limit beyond which hours pay more, and the field of ``OvertimeRules`` that holds it."""


@dataclass(frozen=True, slots=True)
class Rate:
    """What an hour pays from the day ``since`` on, in the job's currency."""

    since: date
    per_hour: Decimal


TIME_AND_A_HALF: Final = Decimal("1.5")
DOUBLE_TIME: Final = Decimal(2)
OVER_FORTY_HOURS: Final = Limit(40 * 60, TIME_AND_A_HALF)

WEEKLY_OVERTIME: Final = OvertimeRules(weekly=(OVER_FORTY_HOURS,))
"""More than 40 hours in a workweek pay one and a half times. Source: 29 CFR 778.101 and 778.107."""

DAILY_OVERTIME: Final = OvertimeRules(
    weekly=(OVER_FORTY_HOURS,),
    daily=(Limit(8 * 60, TIME_AND_A_HALF), Limit(12 * 60, DOUBLE_TIME)),
    seventh_day=(Limit(0, TIME_AND_A_HALF), Limit(8 * 60, DOUBLE_TIME)),
)
"""Limits by the day too. Source: California Labor Code, section 510."""


@dataclass(frozen=True, slots=True)
class JobRules:
    """A job and what holds for it. ``name`` is its category's.

    ``week_starts`` is the workweek's; ``anchor`` any day of a first period of
    two or four weeks; ``payday_after`` how many days after a period's last one
    it is paid, or None where nobody said. ``month_starts`` is the day of the
    month on which monthly periods begin. Without rounding, breaks, rates or
    overtime rules there are none.
    """

    category_id: int
    name: str
    employer: str
    pay_period: PayPeriod = PayPeriod.WEEKLY
    week_starts: Weekday = Weekday.MONDAY
    anchor: date = ANCHOR
    payday_after: int | None = None
    rounding: Rounding | None = None
    breaks: tuple[BreakRule, ...] = ()
    rates: tuple[Rate, ...] = ()
    currency: str = "EUR"
    overtime: OvertimeRules | None = None
    month_starts: int = 1

    def period_of(self, day: date) -> tuple[date, date]:
        """First and last day of the job's pay period that holds ``day``."""
        return pay_period_of(day, self.pay_period, self.week_starts, self.anchor, self.month_starts)

    def period_before(self, day: date) -> tuple[date, date]:
        """The pay period before the one that holds ``day``."""
        return self.period_of(self.period_of(day)[0] - ONE_DAY)

    def payday_of(self, day: date) -> date | None:
        """The day on which the period that holds ``day`` is paid, where it is known."""
        return None if self.payday_after is None else self.period_of(day)[1] + timedelta(days=self.payday_after)


def days_to(rules: JobRules, day_of_month: int) -> int | None:
    """How many days after a period's last one that day of a month is; None where the number is not always the same.

    So it is for months of pay alone, and for a day that every month has, behind their last one.
    """
    last = rules.month_starts - 1
    if rules.pay_period is not PayPeriod.MONTHLY or not last < day_of_month <= SHORTEST_MONTH:
        return None
    return day_of_month - last


def rules_of(job: Job, name: str, rates: Iterable[JobRate], week_starts: Weekday) -> JobRules:
    """What holds for ``job``, whose category is called ``name``.

    ``week_starts`` is the person's, for a job without a workweek of its own.
    """
    return JobRules(
        category_id=job.category_id,
        name=name,
        employer=job.employer,
        pay_period=job.pay_period,
        week_starts=week_starts if job.week_starts is None else job.week_starts,
        anchor=job.anchor or ANCHOR,
        payday_after=job.payday_after,
        rounding=job.rounding,
        breaks=job.breaks,
        rates=tuple(Rate(each.since, each.per_hour) for each in rates),
        currency=job.currency,
        overtime=job.overtime,
        month_starts=job.month_starts,
    )


def same_employer(one: JobRules, other: JobRules) -> bool:
    """Whether two jobs are for one employer, by its name, so that their hours are totalled. Source: 29 CFR 778.103."""
    return one.employer.strip().casefold() == other.employer.strip().casefold()
