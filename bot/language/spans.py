"""Spans of days: a day, a week, a month, or from one day to another.

span := ("this" | "last" | "next" | …) ("week" | "month") | month [year] | "since" day | "week of" day
      | ["from" | "between"] day ("-" | "to" | "until" | "and") day | ("last" | "past") number ("days" | "weeks") | day
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta

from bot.language.days import read_day
from bot.language.month_names import MONTHS
from bot.language.numbers import digits_at, read_whole
from bot.language.phrase import Phrase
from bot.language.tokens import Found
from storage.records import Weekday

SHIFTS = {"this": 0, "current": 0, "last": -1, "previous": -1, "past": -1, "next": 1, "coming": 1, "following": 1}
DAYS_IN = {"day": 1, "days": 1, "week": 7, "weeks": 7}
MOST_DAYS = 3700


@dataclass(frozen=True, slots=True)
class Span:
    """``first`` and ``last`` are both included; ``unit`` is what it was called by."""

    first: date
    last: date
    unit: str


def read_span_of_days(phrase: Phrase, at: int) -> Found[Span] | None:
    """The longest span that starts at ``at``."""
    start = at + 1 if phrase.word(at) in ("for", "in", "of", "on", "during") else at
    found = [reader(phrase, start) for reader in (_named_unit, _month, _since, _last_days, _week_of, _from_to, _one_day)]
    return max((one for one in found if one is not None), key=lambda one: one.end, default=None)


def week_around(day: date, starts: Weekday) -> Span:
    """The calendar week that holds ``day``, cut off at the ends of the calendar."""
    first = day.toordinal() - (day.weekday() - starts) % 7
    return Span(date.fromordinal(max(first, 1)), date.fromordinal(min(first + 6, date.max.toordinal())), "week")


def month_around(year: int, month: int) -> Span:
    """The calendar month."""
    return Span(date(year, month, 1), date(year, month, monthrange(year, month)[1]), "month")


def _named_unit(phrase: Phrase, at: int) -> Found[Span] | None:
    start = at + 1 if phrase.word(at) == "the" else at
    shift = SHIFTS.get(phrase.word(start))
    today = phrase.context.now.date()
    unit = phrase.word(start + 1)
    if shift is None or unit not in ("week", "week's", "month", "month's"):
        return None
    if unit.startswith("week"):
        return Found(week_around(today + timedelta(weeks=shift), phrase.context.week_starts), start + 2)
    return Found(_shifted_month(today, shift), start + 2)


def _shifted_month(today: date, shift: int) -> Span:
    months = today.year * 12 + today.month - 1 + shift
    return month_around(months // 12, months % 12 + 1)


def _month(phrase: Phrase, at: int) -> Found[Span] | None:
    """A month by its name; without a year the latest that has begun."""
    month = MONTHS.get(phrase.word(at))
    if month is None:
        return None
    year = digits_at(phrase.tokens, at + 1)
    if year is not None:
        return Found(month_around(year, month), at + 2) if 1900 <= year <= 2999 else None
    today = phrase.context.now.date()
    return Found(month_around(today.year if month <= today.month else today.year - 1, month), at + 1)


def _since(phrase: Phrase, at: int) -> Found[Span] | None:
    day = _day(phrase, at + 1) if phrase.word(at) == "since" else None
    today = phrase.context.now.date()
    return Found(Span(day.value, today, "days"), day.end) if day and day.value <= today else None


def _last_days(phrase: Phrase, at: int) -> Found[Span] | None:
    """last 7 days, past two weeks: up to today."""
    start = at + 1 if phrase.word(at) == "the" else at
    count = read_whole(phrase.tokens, start + 1) if phrase.word(start) in ("last", "past") else None
    days = DAYS_IN.get(phrase.word(count.end), 0) * count.value if count else 0
    if count is None or not 0 < days < MOST_DAYS:
        return None
    today = phrase.context.now.date()
    return Found(Span(today - timedelta(days=days - 1), today, "days"), count.end + 1)


def _week_of(phrase: Phrase, at: int) -> Found[Span] | None:
    if phrase.word(at) != "week" or phrase.word(at + 1) != "of":
        return None
    found = [read_day(phrase.tokens, at + 2, phrase.context, look) for look in ("back", "forward")]
    days = [day for day in found if day is not None]
    if not days:
        return None
    nearest = min(days, key=lambda day: abs(day.value - phrase.context.now.date()))
    return Found(week_around(nearest.value, phrase.context.week_starts), nearest.end)


def _from_to(phrase: Phrase, at: int) -> Found[Span] | None:
    first = _day(phrase, at + 1 if phrase.word(at) in ("from", "between") else at)
    if first is None or phrase.word(first.end) not in ("-", "to", "until", "till", "and", "through"):
        return None
    last = _day(phrase, first.end + 1)
    return Found(Span(first.value, last.value, "days"), last.end) if last and first.value <= last.value else None


def _one_day(phrase: Phrase, at: int) -> Found[Span] | None:
    day = _day(phrase, at)
    return Found(Span(day.value, day.value, "day"), day.end) if day else None


def _day(phrase: Phrase, at: int) -> Found[date] | None:
    """Hours are asked of days that have been."""
    return read_day(phrase.tokens, at, phrase.context, "back")
