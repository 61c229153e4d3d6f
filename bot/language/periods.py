"""Weeks, months and years by their place from now, and days within them.

period := which ("week" | "month" | "quarter" | "year") | ("week" | "month" | "year") ("after next" | "before last")   its first day
        | month ["on" | ","] ["the"] ordinal                                                     next month on the 21st
        | ("in" | which) month                                                      its first day
        | which (calendar | feast)                                                  next 6th of april, last easter
        | ("this" | "last") part of day                                             the day of it
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.language.calendar_days import read_calendar, read_month_named
from bot.language.dayparts import read_part
from bot.language.feasts import read_feast
from bot.language.month_names import MONTHS
from bot.language.numbers import read_ordinal
from bot.language.partial_days import Partial, Partials, day_or_none, day_shifted, month_shifted, resolved
from bot.language.standpoint import Standpoint
from bot.language.times_of_day import Look
from bot.language.tokens import Found, Tokens, is_number, text_at
from bot.language.weekdays import WHICH, read_week, read_which

PERIOD_WORDS = WHICH | {"the", "week", "month", "year"}
WHICH_WORDS = WHICH | {"in", "the"}
_BEYOND: dict[tuple[str, ...], int] = {("year", "after", "next"): 2, ("year", "before", "last"): -2}
_YEAR_SHIFTS = {"this": 0, "next": 1, "last": -1}
_LOOKS: dict[str, Look] = {"last": "back", "past": "back", "previous": "back", "next": "forward", "coming": "forward"}


def read_period(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """next week, the month after next, next year, in january: the first day."""
    found = read_week(tokens, at, stand) or read_month_named(tokens, at, stand.today)
    if found is not None:
        placed = text_at(tokens, at) in WHICH or text_at(tokens, at + 1) in WHICH or text_at(tokens, found.end - 1) in ("next", "last")
        return _read_day_behind(tokens, found) if placed else None
    return _read_year(tokens, at, stand) or _read_quarter(tokens, at, stand) or _read_part_of_day(tokens, at, stand)


def _read_day_behind(tokens: Tokens, period: Found[date]) -> Found[date]:
    """The day of a month that is said behind it: next month on the 21st; else the period's first day."""
    after = period.end + 1 if text_at(tokens, period.end) in ("on", ",") else period.end
    day = read_ordinal(tokens, after + 1 if text_at(tokens, after) == "the" else after) if "month" in _words(tokens, period) else None
    there = day_or_none(period.value.year, period.value.month, day.value) if day else None
    return Found(there, day.end) if day and there else period


def _words(tokens: Tokens, period: Found[date]) -> set[str]:
    return {token.text for token in tokens[max(period.end - 3, 0) : period.end]}


def read_which_calendar(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """next 6th of april, this march 3rd, in january, last june: of which year it is."""
    in_month = text_at(tokens, at) == "in" and text_at(tokens, at + 1) in MONTHS
    which, after = ("in", at + 1) if in_month else read_which(tokens, at)
    if not which:
        return None
    there = replace(stand, look=_LOOKS.get(which, stand.look), alone=False)
    if which == "this" and text_at(tokens, after) == "may" and not is_number(tokens, after + 1):
        return None  # This may be a month, but it rarely is.
    partials = read_calendar(tokens, after, there) or read_bare_month(tokens, after)
    if partials is None:
        return read_feast(tokens, after, there)
    day = resolved(partials.value, there)
    return Found(day, partials.end) if day else None


def read_bare_month(tokens: Tokens, at: int) -> Found[Partials] | None:
    """A month by its name, with the point of an abbreviation."""
    month = MONTHS.get(text_at(tokens, at))
    end = at + 2 if text_at(tokens, at + 1) == "." else at + 1
    return Found((Partial(None, month),), end) if month else None


def _read_year(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    the = at + 1 if text_at(tokens, at) == "the" else at
    beyond = _BEYOND.get(tuple(token.text for token in tokens[the : the + 3]))
    if beyond is not None:
        first = day_or_none(stand.today.year + beyond, 1, 1)
        return Found(first, the + 3) if first else None
    shift = _YEAR_SHIFTS.get(text_at(tokens, at)) if text_at(tokens, at + 1) == "year" else None
    day = None if shift is None else day_or_none(stand.today.year + shift, 1, 1)
    return _read_month_behind(tokens, Found(day, at + 2)) if day else None


def _read_month_behind(tokens: Tokens, year: Found[date]) -> Found[date]:
    """The month of a year that is said behind it: next year in april; else the year's first day."""
    month = read_bare_month(tokens, year.end + 1) if text_at(tokens, year.end) in ("in", ",") else None
    first = day_or_none(year.value.year, month.value[0].month or 1, 1) if month else None
    return Found(first, month.end) if month and first else year


def _read_quarter(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """next quarter, this qtr."""
    shift = _YEAR_SHIFTS.get(text_at(tokens, at)) if text_at(tokens, at + 1) in ("quarter", "qtr") else None
    day = None if shift is None else month_shifted(stand.today, 3 * shift - (stand.today.month - 1) % 3)
    return Found(day, at + 2) if day else None


def _read_part_of_day(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """The day of "this morning" and of "last night"; the part itself is left to be read."""
    days = {"this": 0, "last": -1}.get(text_at(tokens, at))
    day = day_shifted(stand.today, days) if days is not None and read_part(tokens, at + 1) else None
    return Found(day, at + 1) if day else None
