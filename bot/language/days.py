"""Days, however they are said.

day     := [lead] (simple | counted) [[","] part of day]
lead    := "on" | "by" | "around" | "about"
counted := (span | ["the"] "day") ("after" | "from" | "before" | "on" | "ago") simple | span (weekday | relative)
         | ["the"] [ordinal] weekday ("after" | "before") simple

A day is counted from a simple one only, never from a counted one, so that a
long chain of "a week from a week from …" costs no more than its first link.
"""

from __future__ import annotations

from datetime import date

from bot.language.amounts import DAY, read_span
from bot.language.context import Context
from bot.language.dayparts import read_part
from bot.language.numbers import read_ordinal
from bot.language.offsets import Offset, moved, read_one
from bot.language.partial_days import day_shifted
from bot.language.simple_days import DAY_WORDS, may_be_day, read_simple_day
from bot.language.standpoint import Standpoint, standpoint
from bot.language.times_of_day import Look
from bot.language.tokens import Found, Tokens, is_number, longest, text_at
from bot.language.weekdays import nearest, weekday_at

_LEADS = frozenset({"on", "by", "around", "about"})
_SIDES = {"after": 1, "from": 1, "on": 1, "before": -1, "ago": -1}
_BESIDE: dict[str, Look] = {"after": "forward", "before": "back"}
DAY_FIRST_WORDS = DAY_WORDS | _LEADS


def read_day(tokens: Tokens, at: int, context: Context, look: Look, *, alone: bool = False) -> Found[date] | None:
    """A day, with the part of it that may be named: yesterday afternoon.

    ``alone`` is for places where only a day can stand: there a bare number is a
    day of the month, 2-15 and 7.6 are dates, and "2 weeks" is two weeks from now.
    """
    day = read_bare_day(tokens, at, context, look, alone=alone)
    if day is None or day.end == len(tokens):
        return day
    part = read_part(tokens, day.end + 1 if text_at(tokens, day.end) == "," else day.end)
    return day if part is None else Found(day.value, part.end)


def read_bare_day(tokens: Tokens, at: int, context: Context, look: Look, *, alone: bool = False) -> Found[date] | None:
    """A day without a part of it."""
    at = at + 1 if text_at(tokens, at) in _LEADS else at
    if not (alone or may_be_day(tokens, at)):
        return None
    stand = standpoint(context, look, alone=alone)
    return longest((read_simple_day, _read_counted, _read_beside), tokens, at, stand)


def _read_counted(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """2 weeks after yesterday, a week on tuesday, the day after christmas, a week today."""
    span = read_span(tokens, at) or read_one(tokens, at + 1 if text_at(tokens, at) == "the" else at)
    if span is None or span.value.finest.rank < DAY.rank:
        return None
    side = _SIDES.get(text_at(tokens, span.end))
    if side is None and is_number(tokens, span.end):
        return None
    base = read_simple_day(tokens, span.end if side is None else span.end + 1, stand.among_others())
    day = moved(base.value, Offset(span.value, side or 1)) if base else None
    return Found(day, base.end) if base and day else None


def _read_beside(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """the friday before easter, monday after march 1st, the second monday after easter."""
    at = at + 1 if text_at(tokens, at) == "the" else at
    place = read_ordinal(tokens, at)
    name = weekday_at(tokens, place.end if place else at)
    look = _BESIDE.get(text_at(tokens, name.end)) if name else None
    base = read_simple_day(tokens, name.end + 1, stand.among_others()) if name and look else None
    if name is None or look is None or base is None or (place and not 0 < place.value < 10):
        return None
    weeks = place.value - 1 if place else 0
    day = day_shifted(nearest(name.value, base.value, look), 7 * weeks if look == "forward" else -7 * weeks)
    return Found(day, base.end) if day else None
