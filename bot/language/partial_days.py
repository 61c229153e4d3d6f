"""Days of which something was left out, and which day is meant by them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TypeAlias

from bot.language.standpoint import Standpoint

_YEARS_AWAY = 9
_MONTHS_AWAY = 40
_YEARS_FOR_A_NAME = 2
_MONTHS_FOR_A_NAME = 4
_A_LITTLE = timedelta(days=62)


@dataclass(frozen=True, slots=True)
class Partial:
    """A day of which the year, or the year and the month, or the day may be left out. Without a day it is the month's first."""

    day: int | None = None
    month: int | None = None
    year: int | None = None


Partials: TypeAlias = tuple[Partial, ...]


def resolved(partials: Partials, stand: Standpoint) -> date | None:
    """The nearest day, today included, in the looking direction, of the first partial that is a day; None when none is."""
    for partial in partials:
        for day in _days_of(partial, stand, _YEARS_AWAY, _MONTHS_AWAY):
            return day
    return None


def resolved_named(partials: Partials, stand: Standpoint, weekday: int, *, must_agree: bool) -> date | None:
    """The nearest day that has the name too (0 is Monday).

    A day a little way in the looking direction is preferred, then one a little
    way in the other, then any. Where none has the name, the name is taken for a
    slip, unless it must agree.
    """
    named = [day for partial in partials if (day := _first_named(partial, stand, weekday))]
    if named:
        return min(named, key=lambda day: abs(day - stand.today))
    return None if must_agree else resolved(partials, stand)


def day_or_none(year: int, month: int, day: int) -> date | None:
    """The date, or None where there is none: 30 February, the year 0."""
    try:
        return date(year, month, day)
    except ValueError:
        return None


def day_shifted(day: date, days: int) -> date | None:
    """The day so many days later, or None past the calendar's ends."""
    try:
        return day + timedelta(days=days)
    except OverflowError:
        return None


def month_shifted(day: date, months: int) -> date | None:
    """The first day of the month that lies ``months`` after the day's month, or None past the calendar's ends."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return day_or_none(year, month + 1, 1)


def last_of_month(first: date) -> date:
    """The last day of the month that starts on ``first``."""
    following = month_shifted(first, 1)
    return date.max if following is None else following - timedelta(days=1)


def _days_of(partial: Partial, stand: Standpoint, years: int, months: int) -> Iterator[date]:
    """The days a partial one may be in the looking direction, the nearest first: in so many years, or months where no month was said."""
    for year, month in _months_of(partial, stand, years, months):
        day = day_or_none(year, month, partial.day or 1)
        if day is not None and (partial.year is not None or stand.sees(day)):
            yield day


def _first_named(partial: Partial, stand: Standpoint, weekday: int) -> date | None:
    return next((day for day in _days_near(partial, stand) if day.weekday() == weekday), None)


def _days_near(partial: Partial, stand: Standpoint) -> Iterator[date]:
    """The order in which a day with a name is looked for."""
    yield from _days_of(partial, stand, _YEARS_FOR_A_NAME, _MONTHS_FOR_A_NAME)
    behind = stand.looking("back" if stand.look == "forward" else "forward")
    for day in _days_of(partial, behind, _YEARS_FOR_A_NAME, _MONTHS_FOR_A_NAME):
        if abs(day - stand.today) <= _A_LITTLE:
            yield day
    if partial.month is None:
        yield from _days_of(partial, stand, 0, _MONTHS_AWAY)


def _months_of(partial: Partial, stand: Standpoint, years: int, months: int) -> Iterator[tuple[int, int]]:
    if partial.year is not None:
        yield partial.year, partial.month or 1
    elif partial.month is not None:
        for away in range(years):
            yield stand.today.year + stand.step * away, partial.month
    else:
        for away in range(months):
            first = month_shifted(stand.today, stand.step * away)
            if first is not None:
                yield first.year, first.month
