"""Weeks and months as spans of local days."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from bot.rules.local_time import ONE_DAY
from storage.records import Weekday

DAYS_A_WEEK = 7
DAY_CODES = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
"""The days in rules of recurrence, by ``date.weekday``. Source: RFC 5545, section 3.3.10."""


# A plan asks some dozens of times, of a few days.
@lru_cache(maxsize=1024)
def first_of_week(day: date, week_starts: Weekday) -> date:
    """The first day of the week that ``day`` is in, for weeks that start on ``week_starts``."""
    return day - (day.weekday() - week_starts) % DAYS_A_WEEK * ONE_DAY


def last_of_week(day: date, week_starts: Weekday) -> date:
    """The last day of the week that ``day`` is in."""
    return first_of_week(day, week_starts) + (DAYS_A_WEEK - 1) * ONE_DAY


def week_after(first_day: date) -> date:
    """The first day of the week after the one that starts with ``first_day``."""
    return first_day + DAYS_A_WEEK * ONE_DAY


def week_days(day: date, week_starts: Weekday) -> tuple[date, ...]:
    """The seven days of the week that ``day`` is in, in order."""
    return days_from(first_of_week(day, week_starts), last_of_week(day, week_starts))


def days_from(first: date, last: date) -> tuple[date, ...]:
    """Every day from ``first`` to ``last``, both included; none when ``last`` comes before ``first``."""
    return tuple(first + number * ONE_DAY for number in range((last - first).days + 1))


def first_of_month(day: date) -> date:
    """The first day of the month that ``day`` is in."""
    return day.replace(day=1)


def last_of_month(day: date) -> date:
    """The last day of the month that ``day`` is in."""
    return first_of_next_month(day) - ONE_DAY


def first_of_next_month(day: date) -> date:
    """The first day of the month after the one that ``day`` is in."""
    return date(day.year + 1, 1, 1) if day.month == 12 else date(day.year, day.month + 1, 1)


def iso_week(day: date) -> tuple[int, int]:
    """The ISO 8601 week that ``day`` is in: the year the week belongs to, and its number from 1 to 53."""
    calendar = day.isocalendar()
    return calendar.year, calendar.week
