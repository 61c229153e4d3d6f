"""Pay periods: which one a day is in, its neighbours, and the workweeks that end in it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from bot.rules.local_time import ONE_DAY
from bot.rules.weeks import DAYS_A_WEEK, first_of_month, first_of_next_month, first_of_week, last_of_month, last_of_week
from storage.records import PayPeriod, Weekday

ANCHOR: Final = date(2001, 1, 1)
"""A day in the first period that periods of two and four weeks are counted from, where a job names none."""

MIDDLE_DAY: Final = 15
"""Last day of the first period of two in a month (1st to 15th, 16th to last). Source: common practice, no source."""

WEEKS: Final = {PayPeriod.WEEKLY: 1, PayPeriod.EVERY_TWO_WEEKS: 2, PayPeriod.FOUR_WEEKLY: 4}


def pay_period_of(day: date, period: PayPeriod, week_starts: Weekday, anchor: date = ANCHOR, month_starts: int = 1) -> tuple[date, date]:
    """First and last day, both included, of the pay period that holds ``day``.

    Periods of whole weeks start on ``week_starts`` and are counted from the week of ``anchor``. Monthly ones start on the day
    ``month_starts`` of a month, from 1 to 31, and on the last one of a month that is shorter. Source: common practice, no source.
    """
    weeks = WEEKS.get(period)
    if weeks is not None:
        return _weeks_period(day, weeks, week_starts, anchor)
    if period is PayPeriod.MONTHLY:
        return _monthly_period(day, month_starts)
    if day.day <= MIDDLE_DAY:
        return first_of_month(day), day.replace(day=MIDDLE_DAY)
    return day.replace(day=MIDDLE_DAY + 1), last_of_month(day)


def workweeks_ending_in(first: date, last: date, week_starts: Weekday) -> tuple[tuple[date, date], ...]:
    """The workweeks, as first and last days, whose last day is from ``first`` to ``last``; the earliest may start before ``first``.

    Overtime is paid with the period in which its workweek ends. Source: 29 CFR 778.106.
    """
    ends = last_of_week(first, week_starts)
    weeks: list[tuple[date, date]] = []
    while ends <= last:
        weeks.append((first_of_week(ends, week_starts), ends))
        ends += timedelta(days=DAYS_A_WEEK)
    return tuple(weeks)


def _monthly_period(day: date, month_starts: int) -> tuple[date, date]:
    here = _start_in_month(day, month_starts)
    first = here if here <= day else _start_in_month(first_of_month(day) - ONE_DAY, month_starts)
    return first, _start_in_month(first_of_next_month(first), month_starts) - ONE_DAY


def _start_in_month(day: date, month_starts: int) -> date:
    return day.replace(day=min(month_starts, last_of_month(day).day))


def _weeks_period(day: date, weeks: int, week_starts: Weekday, anchor: date) -> tuple[date, date]:
    origin = first_of_week(anchor, week_starts)
    length = timedelta(days=weeks * DAYS_A_WEEK)
    first = origin + (day - origin) // length * length
    return first, first + length - ONE_DAY
