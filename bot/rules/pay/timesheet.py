"""A job's hours in a pay period, as they are handed in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from decimal import Decimal
from fractions import Fraction
from typing import Final

from bot.rules.pay.day_sheet import DaySheet, day_sheet
from bot.rules.pay.job_rules import JobRules, same_employer
from bot.rules.pay.overtime import ONCE, Worked, premium, regular_rate, shares_of_week, straight_pay
from bot.rules.pay.periods import workweeks_ending_in
from bot.rules.pay.rates import rate_on
from bot.rules.pay.rounding import hundredths
from bot.rules.weeks import first_of_week
from storage.records import Stint

LAST: Final = datetime.max.replace(tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Overtime:
    """``minutes`` of one workweek that pay ``times`` the week's regular rate."""

    times: Decimal
    minutes: int


@dataclass(frozen=True, slots=True)
class WeekSheet:
    """A workweek that ends in the period, with the job's overtime in it.

    ``minutes`` are the paid minutes of all the employer's jobs, and
    ``regular_rate`` what an hour of them pays on average, exact, or None where
    a rate is unknown.
    """

    first: date
    last: date
    minutes: int
    overtime: tuple[Overtime, ...]
    regular_rate: Fraction | None

    def premium_of(self, overtime: Overtime) -> Fraction | None:
        """What some of the week's overtime pays on top of straight pay."""
        return None if self.regular_rate is None else premium(overtime.minutes, overtime.times, self.regular_rate)


@dataclass(frozen=True, slots=True)
class Estimate:
    """What the period is likely to pay before deductions, in cents. The employer's record and local law decide.

    ``unrated`` are the paid minutes from before the first rate, which are not in it.
    """

    straight: Decimal
    premium: Decimal
    currency: str
    unrated: int = 0

    @property
    def gross(self) -> Decimal:
        """Both together."""
        return self.straight + self.premium


@dataclass(frozen=True, slots=True)
class Timesheet:
    """Days with work only, in order; workweeks that end in the period. Without rates there are hours and no ``estimate``."""

    job: JobRules
    first: date
    last: date
    days: tuple[DaySheet, ...]
    weeks: tuple[WeekSheet, ...]
    estimate: Estimate | None

    @property
    def worked(self) -> int:
        """Exact minutes as they were noted, net of noted breaks; never rounded."""
        return sum(day.worked for day in self.days)

    @property
    def paid(self) -> int:
        """Minutes that count for pay, after the employer's breaks and rounding."""
        return sum(day.paid for day in self.days)

    @property
    def taken_off(self) -> int:
        """Minutes of unpaid break that were taken off by rule."""
        return sum(day.taken_off for day in self.days)

    @property
    def overtime(self) -> tuple[Overtime, ...]:
        """The period's overtime, the lowest multiple first."""
        return _summed(each for week in self.weeks for each in week.overtime)


def days_needed(job: JobRules, first: date, last: date) -> tuple[date, date]:
    """The span of days whose stints a timesheet from ``first`` to ``last`` needs: its first workweek may start before it."""
    return first_of_week(first, job.week_starts), last


def timesheet(job: JobRules, first: date, last: date, stints: Iterable[Stint], zone: str, others: Iterable[JobRules] = ()) -> Timesheet:
    """The timesheet of ``job`` from ``first`` to ``last``, both included.

    ``stints`` are those of ``days_needed``, of this job and of ``others``;
    any more are passed over. Of the other jobs only those of the same employer
    count, and only towards overtime, which goes by this job's rules.
    """
    jobs = {each.category_id: each for each in (*others, job) if same_employer(each, job)}
    days = _day_sheets(stints, jobs, zone)
    own = tuple(day for day in days if day.category_id == job.category_id and first <= day.day <= last)
    worked = tuple(Worked(day.day, day.category_id, day.paid, rate_on(day.day, jobs[day.category_id].rates)) for day in days)
    weeks = tuple(_week_sheet(job, starts, ends, worked) for starts, ends in workweeks_ending_in(first, last, job.week_starts))
    mine = tuple(each for each in worked if each.category_id == job.category_id and first <= each.day <= last)
    return Timesheet(job, first, last, own, weeks, _estimate(job, mine, weeks))


def days_of_job(job: JobRules, stints: Iterable[Stint], zone: str) -> tuple[DaySheet, ...]:
    """The job's days alone, in order: what a timesheet of those ``stints`` would have as its days."""
    return _day_sheets(stints, {job.category_id: job}, zone)


def _in_order(stint: Stint) -> tuple[date, datetime, int]:
    """By day, those without times last."""
    return stint.day, stint.starts or LAST, stint.id


def _day_sheets(stints: Iterable[Stint], jobs: Mapping[int, JobRules], zone: str) -> tuple[DaySheet, ...]:
    """One sheet a day and job; each day's in the order in which its jobs were started."""
    groups: dict[tuple[date, int], list[Stint]] = {}
    for stint in sorted(stints, key=_in_order):
        if stint.category_id in jobs:
            groups.setdefault((stint.day, stint.category_id), []).append(stint)
    return tuple(day_sheet(group, jobs[category_id], zone) for (_, category_id), group in groups.items())


def _week_sheet(job: JobRules, first: date, last: date, worked: Iterable[Worked]) -> WeekSheet:
    week = tuple(each for each in worked if first <= each.day <= last)
    shares = shares_of_week(week, job.overtime) if job.overtime else ()
    own = [share for share in shares if share.worked.category_id == job.category_id and share.times != ONCE]
    overtime = _summed(Overtime(share.times, share.minutes) for share in own)
    return WeekSheet(first, last, sum(each.minutes for each in week), overtime, regular_rate(week))


def _estimate(job: JobRules, worked: Sequence[Worked], weeks: Iterable[WeekSheet]) -> Estimate | None:
    """The pay of what has a rate; None where nothing has one, or an hour of overtime has none."""
    rated = [each for each in worked if each.per_hour is not None]
    straight = straight_pay(rated)
    if straight is None or not job.rates or (worked and not rated):
        return None
    extra = Fraction(0)
    for week in weeks:
        for each in week.overtime:
            pays = week.premium_of(each)
            if pays is None:
                return None
            extra += pays
    unrated = sum(each.minutes for each in worked) - sum(each.minutes for each in rated)
    return Estimate(hundredths(straight), hundredths(extra), job.currency, unrated)


def _summed(overtime: Iterable[Overtime]) -> tuple[Overtime, ...]:
    minutes: dict[Decimal, int] = {}
    for each in overtime:
        minutes[each.times] = minutes.get(each.times, 0) + each.minutes
    return tuple(Overtime(times, minutes[times]) for times in sorted(minutes))
