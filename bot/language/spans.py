"""Spans of days: a day, a week, a month, a year, or from one to another.

span := ("this" | "last" | "next" | …) ("week" | "month") | ("this" | "last" | …) "year" | "year" | period | "since" (period | day)
      | "week of" day | ["from" | "between"] (period to period | day to day) | ("last" | "past") number units | day
period := month [year] | year
to := "-" | "to" | "until" | "and" | …
units := "days" | "weeks" | "months" | "years"
"""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from bot.language.days import read_day
from bot.language.month_names import MONTHS
from bot.language.numbers import digits_at, read_whole
from bot.language.phrase import Phrase, longest
from bot.language.tokens import Found
from storage.records import Weekday

SHIFTS = {"this": 0, "current": 0, "last": -1, "previous": -1, "past": -1, "next": 1, "coming": 1, "following": 1}
DAYS_IN = {"day": 1, "days": 1, "week": 7, "weeks": 7}
MONTHS_IN = {"month": 1, "months": 1, "year": 12, "years": 12}
MOST_DAYS = 3700
MOST_MONTHS = 1200
FIRST_YEAR, LAST_YEAR = 1900, 2999
TO = ("-", "to", "until", "till", "and", "through")


@dataclass(frozen=True, slots=True)
class Span:
    """``first`` and ``last`` are both included; ``unit`` is what it was called by."""

    first: date
    last: date
    unit: str


def read_span_of_days(phrase: Phrase, at: int) -> Found[Span] | None:
    """The longest span that starts at ``at``."""
    start = at + 1 if phrase.word(at) in ("for", "in", "of", "on", "during") else at
    return longest(phrase, start, _READERS)


def week_around(day: date, starts: Weekday) -> Span:
    """The calendar week that holds ``day``, cut off at the ends of the calendar."""
    first = day.toordinal() - (day.weekday() - starts) % 7
    return Span(date.fromordinal(max(first, 1)), date.fromordinal(min(first + 6, date.max.toordinal())), "week")


def month_around(year: int, month: int) -> Span:
    """The calendar month."""
    return Span(date(year, month, 1), date(year, month, monthrange(year, month)[1]), "month")


def year_of(year: int) -> Span:
    """The calendar year."""
    return Span(date(year, 1, 1), date(year, 12, 31), "year")


def month_ahead(phrase: Phrase, span: Span, *, just_over: timedelta = timedelta(0)) -> Span:
    """What lies in a month that was named without its year is of the next one, for spans look back; not where it was ``just_over``."""
    past = span.unit == "month" and span.last + just_over < phrase.context.now.date()
    named = past and not any((len(token.text) > 2 and token.kind == "number") or token.text in SHIFTS for token in phrase.tokens)
    return month_around(span.first.year + 1, span.first.month) if named and span.first.year < date.max.year else span


def _named_unit(phrase: Phrase, at: int) -> Found[Span] | None:
    start = at + 1 if phrase.word(at) == "the" else at
    shift = SHIFTS.get(phrase.word(start))
    today = phrase.context.now.date()
    unit = phrase.word(start + 1)
    if unit in ("year", "year's") and shift in (0, -1):
        return Found(year_of(today.year + shift), start + 2)
    if shift is None or unit not in ("week", "week's", "month", "month's"):
        return None
    if unit.startswith("week"):
        return Found(week_around(today + timedelta(weeks=shift), phrase.context.week_starts), start + 2)
    return Found(_shifted_month(today, shift), start + 2)


def _shifted_month(today: date, shift: int) -> Span:
    months = today.year * 12 + today.month - 1 + shift
    return month_around(months // 12, months % 12 + 1)


def _this_year(phrase: Phrase, at: int) -> Found[Span] | None:
    """The year alone is the one we are in."""
    return Found(year_of(phrase.context.now.year), at + 1) if phrase.word(at) == "year" else None


def _period(phrase: Phrase, at: int) -> Found[Span] | None:
    """A month by its name, without a year the latest that has begun; or a year by its number."""
    month = MONTHS.get(phrase.word(at))
    year = _year(phrase, at if month is None else at + 1)
    if month is None:
        return Found(year_of(year), at + 1) if year is not None else None
    if year is not None:
        return Found(month_around(year, month), at + 2)
    if digits_at(phrase.tokens, at + 1) is not None:
        return None
    today = phrase.context.now.date()
    return Found(month_around(today.year if month <= today.month else today.year - 1, month), at + 1)


def _year(phrase: Phrase, at: int) -> int | None:
    year = digits_at(phrase.tokens, at)
    return year if year is not None and FIRST_YEAR <= year <= LAST_YEAR else None


def _periods(phrase: Phrase, at: int) -> Found[Span] | None:
    """From a month or year to another, both whole; a first month without a year comes before the last."""
    first = _period(phrase, at + 1 if phrase.word(at) in ("from", "between") else at)
    last = _period(phrase, first.end + 1) if first is not None and phrase.word(first.end) in TO else None
    if first is None or last is None:
        return None
    begins = first.value.first
    if begins > last.value.last and MONTHS.get(phrase.word(first.end - 1)):
        begins = begins.replace(year=last.value.last.year - (begins.month > last.value.last.month))
    return Found(Span(begins, last.value.last, "days"), last.end) if begins <= last.value.last else None


def _since(phrase: Phrase, at: int) -> Found[Span] | None:
    if phrase.word(at) != "since":
        return None
    today = phrase.context.now.date()
    period, day = _period(phrase, at + 1), _day(phrase, at + 1)
    if period is not None and (day is None or period.end >= day.end):
        day = Found(period.value.first, period.end)
    return Found(Span(day.value, today, "days"), day.end) if day and day.value <= today else None


def _last_units(phrase: Phrase, at: int) -> Found[Span] | None:
    """last 7 days, past two weeks, last 3 months: up to today."""
    start = at + 1 if phrase.word(at) == "the" else at
    count = read_whole(phrase.tokens, start + 1) if phrase.word(start) in ("last", "past") else None
    if count is None:
        return None
    today, unit = phrase.context.now.date(), phrase.word(count.end)
    days, months = DAYS_IN.get(unit, 0) * count.value, MONTHS_IN.get(unit, 0) * count.value
    if not (0 < days < MOST_DAYS or 0 < months <= min(MOST_MONTHS, 12 * (today.year - 1))):
        return None
    first = today - timedelta(days=days - 1) if days else _months_ago(today, months) + timedelta(days=1)
    return Found(Span(first, today, "days"), count.end + 1)


def _months_ago(day: date, months: int) -> date:
    """The same day of an earlier month, or that month's last."""
    there = _shifted_month(day, -months)
    return min(there.last, there.first + timedelta(days=day.day - 1))


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
    """Both days have been; a last one that would come before the first is the next of its name after that."""
    first = _day(phrase, at + 1 if phrase.word(at) in ("from", "between") else at)
    if first is None or phrase.word(first.end) not in TO:
        return None
    last = _day(phrase, first.end + 1)
    if last is not None and last.value < first.value:
        there = replace(phrase.context, now=datetime.combine(first.value, time(), phrase.context.now.tzinfo))
        last = read_day(phrase.tokens, first.end + 1, there, "forward")
    return Found(Span(first.value, last.value, "days"), last.end) if last and first.value <= last.value else None


def _one_day(phrase: Phrase, at: int) -> Found[Span] | None:
    day = _day(phrase, at)
    return Found(Span(day.value, day.value, "day"), day.end) if day else None


def _day(phrase: Phrase, at: int) -> Found[date] | None:
    """Hours are asked of days that have been."""
    return read_day(phrase.tokens, at, phrase.context, "back")


_READERS: tuple[Callable[[Phrase, int], Found[Span] | None], ...] = (
    _named_unit,
    _this_year,
    _period,
    _since,
    _last_units,
    _week_of,
    _periods,
    _from_to,
    _one_day,
)
