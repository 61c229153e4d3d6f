"""Weeks, months and years by their place from now, and days within them.

period := which ("week" | "month" | "quarter" | "year") | ("week" | "month") "after next"       its first day
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
from bot.language.partial_days import Partial, Partials, day_or_none, day_shifted, month_shifted, resolved
from bot.language.standpoint import Standpoint
from bot.language.times_of_day import Look
from bot.language.tokens import Found, Tokens, is_number, text_at
from bot.language.weekdays import WHICH, read_week, read_which

PERIOD_WORDS = WHICH | {"in", "the", "week", "month"}
_YEAR_SHIFTS = {"this": 0, "next": 1, "last": -1}
_LOOKS: dict[str, Look] = {"last": "back", "past": "back", "previous": "back", "next": "forward", "coming": "forward"}


def read_period(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """next week, the month after next, next year, in january: the first day."""
    found = read_week(tokens, at, stand) or read_month_named(tokens, at, stand.today)
    if found is not None:
        placed = text_at(tokens, at) in WHICH or text_at(tokens, at + 1) in WHICH or text_at(tokens, found.end - 1) == "next"
        return found if placed else None
    return _read_year(tokens, at, stand) or _read_quarter(tokens, at, stand) or _read_part_of_day(tokens, at, stand)


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
    shift = _YEAR_SHIFTS.get(text_at(tokens, at)) if text_at(tokens, at + 1) == "year" else None
    day = None if shift is None else day_or_none(stand.today.year + shift, 1, 1)
    return Found(day, at + 2) if day else None


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
