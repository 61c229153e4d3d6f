"""Days by their place in the calendar.

calendar    := figures | month-first | day-first
month-first := month [","] ["the"] day [[","] year] | month [","] year
day-first   := ["the"] day ["of"] month [[","] year] | ["the"] day "of" which "month" | ["the"] ordinal
day         := ordinal | whole
year        := digits4 | words | "'" digits2 | digits2 above 31 or near this year | ("this" | "next" | "last") "year"

A year before our era or in its first thousand (10 August 234 BCE) is nobody's day.

What is read is one or more ``Partial`` days, the likeliest first: 2/3 is the
2nd of March or the 3rd of February.
"""

from __future__ import annotations

from datetime import date

from bot.language.amounts import unit_at
from bot.language.figure_dates import full_year, is_year, read_figure_date
from bot.language.month_names import MONTHS
from bot.language.numbers import ONES, ORDINAL_WORDS, digits_at, read_ordinal, read_whole, read_year_said
from bot.language.partial_days import Partial, Partials, month_shifted
from bot.language.standpoint import Standpoint
from bot.language.tokens import Found, Tokens, is_number, text_at

CALENDAR_WORDS = frozenset(MONTHS) | ORDINAL_WORDS | frozenset(ONES) | {"the"}
_MONTH_SHIFTS = {"next": 1, "coming": 1, "following": 1, "this": 0, "current": 0, "last": -1, "previous": -1, "past": -1}
_BEYOND = {("after", "next"): 2, ("before", "last"): -2}
_ERAS = frozenset("bc bce ad ce be".split())
_YEAR_SHIFTS = {"this": 0, "next": 1, "last": -1}
_TIME_FOLLOWS = frozenset({":", "-", "to", "till", "until", "am", "pm", "a", "p", "/", "h", "hrs", "hours"})
_LAST_DAY = 31


def read_calendar(tokens: Tokens, at: int, stand: Standpoint) -> Found[Partials] | None:
    """A calendar day; where only a day can stand, also a bare number, 2-15 or 7.6."""
    if text_at(tokens, at) in MONTHS:
        return read_figure_date(tokens, at, stand) or _read_month_first(tokens, at, stand)
    if is_number(tokens, at):
        return read_figure_date(tokens, at, stand) or _read_day_first(tokens, at, stand, sure=stand.alone)
    if text_at(tokens, at) == "the":
        return _read_day_first(tokens, at + 1, stand, sure=True)
    return _read_day_first(tokens, at, stand, sure=stand.alone)


def read_month_named(tokens: Tokens, at: int, today: date) -> Found[date] | None:
    """The first day of a month by its place from now: next month, the current month, the month."""
    at = at + 1 if text_at(tokens, at) == "the" else at
    shift = _MONTH_SHIFTS.get(text_at(tokens, at))
    after = at if shift is None else at + 1
    if text_at(tokens, after) != "month":
        return None
    beyond = _BEYOND.get((text_at(tokens, after + 1), text_at(tokens, after + 2))) if shift is None else None
    first = month_shifted(today, beyond or shift or 0)
    return Found(first, after + 3 if beyond else after + 1) if first else None


def read_long_year(tokens: Tokens, at: int) -> Found[int] | None:
    """A year of four digits that is not a time: 2015, but not 2015-2100; or one in words."""
    value = digits_at(tokens, at)
    if value is None:
        return read_year_said(tokens, at)
    if len(tokens[at].text) != 4 or not is_year(value) or text_at(tokens, at + 1) in _TIME_FOLLOWS:
        return None
    return Found(value, at + 1)


def _read_month_first(tokens: Tokens, at: int, stand: Standpoint) -> Found[Partials] | None:
    month = MONTHS[tokens[at].text]
    after = _after_marks(tokens, at + 1, {".", ",", "-", "/", "the", "of"})
    year = read_long_year(tokens, after) or _read_which_year(tokens, after, stand)
    if year is not None:
        return Found((Partial(None, month, year.value),), year.end)
    day = read_ordinal(tokens, after) or read_whole(tokens, after)
    if day is None or not 0 < day.value <= _LAST_DAY or text_at(tokens, day.end) == ":" or unit_at(tokens, day.end):
        return None
    return _with_year(tokens, day.value, month, day.end, stand, near=False)


def _read_day_first(tokens: Tokens, at: int, stand: Standpoint, *, sure: bool) -> Found[Partials] | None:
    ordinal = read_ordinal(tokens, at)
    day = ordinal or read_whole(tokens, at)
    if day is None or not 0 < day.value <= _LAST_DAY:
        return None
    after = _after_marks(tokens, day.end, {".", "-", ",", "of"})
    month = MONTHS.get(text_at(tokens, after))
    if month is not None:
        return _with_year(tokens, day.value, month, after + 2 if text_at(tokens, after + 1) == "." else after + 1, stand, near=True)
    placed = text_at(tokens, day.end) in ("of", "in")
    named = read_month_named(tokens, day.end + 1 if placed else day.end, stand.today) if placed or ordinal else None
    if named is not None:
        this = text_at(tokens, named.end - 2) == "the"  # The 1st of the month is the next one that comes.
        return Found((Partial(day.value) if this else Partial(day.value, named.value.month, named.value.year),), named.end)
    return Found((Partial(day.value),), day.end) if _stands_alone(tokens, at, day.end, ordinal is not None, sure) else None


def _stands_alone(tokens: Tokens, at: int, end: int, is_ordinal: bool, sure: bool) -> bool:
    """Whether a number without a month is a day: 5th, the 5th, the fifth; 15 where only a day can stand."""
    if is_ordinal:
        return sure or is_number(tokens, at)
    return sure and not unit_at(tokens, end) and text_at(tokens, end) not in _TIME_FOLLOWS


def _with_year(tokens: Tokens, day: int, month: int, end: int, stand: Standpoint, *, near: bool) -> Found[Partials] | None:
    if is_number(tokens, end) and text_at(tokens, end + 1) in _ERAS:
        return None
    year = _read_year(tokens, end, stand.today.year, near=near) or _read_which_year(tokens, end, stand)
    return Found((Partial(day, month, year.value if year else None),), year.end if year else end)


def _read_year(tokens: Tokens, at: int, this_year: int, *, near: bool) -> Found[int] | None:
    """A year after a day and a month: 2015, of 1995, '96; where ``near``, also 96 alone, and a year about now."""
    after = _after_marks(tokens, at, {",", "of", "'", ".", "-", "/"})
    found = read_long_year(tokens, after + 1 if text_at(tokens, after) == "in" else after)
    if found is not None:
        return found
    value = digits_at(tokens, after)
    quoted = after > at and text_at(tokens, after - 1) == "'"
    may_be_year = near and (value is not None and (value > _LAST_DAY or abs(full_year(value) - this_year) <= 1))
    if value is None or len(tokens[after].text) != 2 or not (quoted or may_be_year):
        return None
    follows_time = unit_at(tokens, after + 1) or text_at(tokens, after + 1) in _TIME_FOLLOWS
    return None if follows_time else Found(full_year(value), after + 1)


def _read_which_year(tokens: Tokens, at: int, stand: Standpoint) -> Found[int] | None:
    at = at + 1 if text_at(tokens, at) in ("of", ",") else at
    shift = _YEAR_SHIFTS.get(text_at(tokens, at)) if text_at(tokens, at + 1) == "year" else None
    return None if shift is None else Found(stand.today.year + shift, at + 2)


def _after_marks(tokens: Tokens, at: int, marks: set[str]) -> int:
    """The index after at most two of the marks."""
    first = at
    while text_at(tokens, at) in marks and at < first + 2:
        at += 1
    return at
