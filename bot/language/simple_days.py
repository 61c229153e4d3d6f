"""Days that are not counted from other days: all families of phrases, each from its module.

simple := relative [dated] | weekday [dated | offset] | calendar ["(" weekday ")"] | nth | edge | feast | weekend
        | period | which calendar | offset ["on" weekday]

The first token tells which families may begin there, and a glance at the next
few whether a number or a "the" can begin a day at all, so that other words
cost next to nothing. Of all readings the longest wins.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import TypeAlias

from bot.language.amounts import DAY, UNITS, read_span
from bot.language.calendar_days import CALENDAR_WORDS, read_calendar
from bot.language.dated_names import read_date_behind, read_dated_weekday, read_measured_weekday, read_name_behind, read_name_on
from bot.language.dayparts import PARTS
from bot.language.feasts import FEAST_WORDS, read_feast
from bot.language.month_names import MONTHS
from bot.language.nth_days import EDGE_WORDS, NTH_WORDS, read_edge, read_nth
from bot.language.numbers import NUMBER_WORDS, ORDINAL_ENDINGS, ORDINAL_WORDS
from bot.language.offsets import OFFSET_WORDS, Offset, moved, read_offset
from bot.language.partial_days import resolved
from bot.language.periods import PERIOD_WORDS, WHICH_WORDS, read_bare_month, read_period, read_which_calendar
from bot.language.relative_days import RELATIVE_WORDS, read_relative
from bot.language.standpoint import Standpoint
from bot.language.tokens import Found, Tokens, is_number, longest, text_at
from bot.language.weekdays import (
    COUNT_WORDS,
    WEEK_WORDS,
    WEEKDAY_WORDS,
    WEEKDAYS,
    WEEKEND_WORDS,
    WHICH,
    read_counted_weekday,
    read_weekday,
    read_weekend,
)

Reader: TypeAlias = Callable[[Tokens, int, Standpoint], Found[date] | None]

_REACH = 7
_UNSURE = NUMBER_WORDS | WHICH | OFFSET_WORDS | {"the", "at"}
_DAY_UNITS = frozenset(word for word, unit in UNITS.items() if unit.rank >= DAY.rank)
_FOLLOWERS = (
    ORDINAL_ENDINGS
    | ORDINAL_WORDS
    | (EDGE_WORDS - {"the"})
    | frozenset(MONTHS)
    | frozenset(WEEKDAYS)
    | frozenset(PARTS)
    | FEAST_WORDS
    | _DAY_UNITS
    | {"weekend", "time", "moment", "quarter"}
)


def read_simple_day(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """The longest reading of any family."""
    readers = _ON_DIGITS if is_number(tokens, at) else _BY_FIRST_WORD.get(text_at(tokens, at), ())
    return longest(readers, tokens, at, stand)


def may_be_day(tokens: Tokens, at: int) -> bool:
    """Whether a day may begin at ``at``: a glance that spares the reading."""
    if at >= len(tokens):
        return False
    token = tokens[at]
    digits = token.kind == "number"
    if not digits and token.text not in _UNSURE:
        return token.text in _BY_FIRST_WORD
    following = [later.text for later in tokens[at + 1 : at + _REACH]]
    if not _FOLLOWERS.isdisjoint(following):
        return True
    return len(token.text) == 8 or _is_joined(following) if digits else token.text == "the" and is_number(tokens, at + 1)


def _is_joined(following: list[str]) -> bool:
    """Whether figures go on as a date does: /4, -2-26, .3., 31 1974."""
    first, second, third = (*following, "", "", "")[:3]
    return first == "/" or (first in ("-", ".") and third == first) or len(second) == 4 or (first.isdecimal() and second.isdecimal())


def _read_relative_day(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """today; tomorrow, 13 april."""
    named = read_relative(tokens, at, stand)
    return (read_date_behind(tokens, named, stand) or named) if named else None


def _read_calendar_day(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """march 3rd, 2/3, the 20th, 2/3 (tue); where only a day can stand, march."""
    partials = read_calendar(tokens, at, stand)
    named = read_name_behind(tokens, partials, stand) if partials else None
    if named is not None:
        return named
    partials = partials or (read_bare_month(tokens, at) if stand.alone else None)
    day = resolved(partials.value, stand) if partials else None
    return Found(day, partials.end) if partials and day else None


def _read_offset_day(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """in 3 days, 3 weeks ago, in 2 weeks on friday; where only a day can stand, 3 days."""
    offset = read_offset(tokens, at)
    if offset is None:
        return _read_length_as_day(tokens, at, stand) if stand.alone else None
    day = moved(stand.today, offset.value) if offset.value.by_day else None
    there = Found(day, offset.end) if day else None
    return (read_name_on(tokens, there, stand) or there) if there else None


def _read_length_as_day(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    span = read_span(tokens, at)
    offset = Offset(span.value, stand.step) if span else None
    day = moved(stand.today, offset) if offset and offset.by_day else None
    return Found(day, span.end) if span and day else None


_FAMILIES: tuple[tuple[frozenset[str], Reader], ...] = (
    (RELATIVE_WORDS, _read_relative_day),
    (WEEKDAY_WORDS | WEEK_WORDS, read_weekday),
    (COUNT_WORDS, read_counted_weekday),
    (WEEKDAY_WORDS, read_dated_weekday),
    (WEEKEND_WORDS, read_weekend),
    (frozenset(WEEKDAYS), read_measured_weekday),
    (CALENDAR_WORDS, _read_calendar_day),
    (NTH_WORDS, read_nth),
    (EDGE_WORDS, read_edge),
    (FEAST_WORDS, read_feast),
    (PERIOD_WORDS, read_period),
    (WHICH_WORDS, read_which_calendar),
    (OFFSET_WORDS, _read_offset_day),
)
DAY_WORDS: frozenset[str] = frozenset().union(*(words for words, _ in _FAMILIES))
_BY_FIRST_WORD = {word: tuple(reader for words, reader in _FAMILIES if word in words) for word in DAY_WORDS}
_ON_DIGITS: tuple[Reader, ...] = (
    _read_calendar_day,
    read_nth,
    read_counted_weekday,
    _read_offset_day,
)
