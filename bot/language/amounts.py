"""Amounts of time.

amount := [lead] part {[","] ["and" | "plus"] part} [tail] | [lead] digits ":" digits [":" digits] [hours]
part   := quantity ["-"] [extra] unit | fraction ["of"] ["a" | "an" | "the"] unit | ["the" | "whole"] unit
tail   := ["and"] fraction            of the last unit: an hour and a half
        | ["and"] whole               of the next smaller unit: 2h30, 2 hours ten

Units within one amount only get smaller, so an amount is at most a handful of parts.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from bot.language.month_names import MONTHS
from bot.language.numbers import (
    NUMBER_WORDS,
    ORDINAL_ENDINGS,
    Number,
    begins_quantity,
    digits_at,
    read_fraction,
    read_quantity,
    read_whole,
    times,
)
from bot.language.tokens import Found, Tokens, is_glued, is_number, text_at


@dataclass(frozen=True, slots=True, eq=False)
class Unit:
    """A unit by its length: ``months`` where the calendar decides, else ``seconds``. There is one of each, below."""

    rank: int
    months: int = 0
    seconds: int = 0


SECOND, MINUTE, HOUR = Unit(0, seconds=1), Unit(1, seconds=60), Unit(2, seconds=3600)
DAY, WEEK = Unit(3, seconds=86400), Unit(4, seconds=7 * 86400)
FORTNIGHT, MONTH, QUARTER, YEAR = Unit(5, seconds=14 * 86400), Unit(6, months=1), Unit(7, months=3), Unit(8, months=12)

UNITS: dict[str, Unit] = {
    word: unit
    for unit, words in (
        (SECOND, 's sec secs second seconds "'),
        (MINUTE, "m mn min mins minute minutes minuts ' minute's minutes'"),
        (HOUR, "h hr hrs hour hours hour's"),
        (DAY, "d day days day's night nights"),
        (WEEK, "w wk wks week weeks week's"),
        (FORTNIGHT, "fortnight fortnights fortnight's"),
        (MONTH, "mo mos mth mths month months month's"),
        (QUARTER, "qtr qtrs"),
        (YEAR, "y yr yrs year years year's"),
    )
    for word in words.split()
}
_ABBREVIATED = frozenset("ca approx sec secs min mins hr hrs wk wks mo mos yr yrs".split())
_SMALLER = {HOUR: MINUTE, MINUTE: SECOND}
_LEADS = frozenset(
    "for lasting about around roughly approx approximately nearly almost just only exactly another some under over ~ circa ca".split()
)
_EXTRAS = frozenset(
    "more fewer less lesser extra additional further full whole entire straight solid long good other odd ish working".split()
)
_BEHIND = {"or": "so", "worth": "of", "in": "total", "all": "told"}
"""May stand behind an amount and change nothing."""
_ARTICLES = frozenset({"a", "an", "the"})
_SPELLED = frozenset(word for word in UNITS if len(word) > 1)
_BARE_UNITS = {"hour": HOUR, "day": DAY, "week": WEEK}
_FIRST_WORDS = NUMBER_WORDS | _LEADS | frozenset({"the", "whole", "hour", "day", "all", "full", ".", "+"})
_CLOCK_AFTER = frozenset({"am", "pm", "a", "p", "o'clock", "oclock"})
_NOT_BEHIND_A_TAIL = _CLOCK_AFTER | ORDINAL_ENDINGS | frozenset(MONTHS) | {":", "/", "-", "%", "of"}


@dataclass(frozen=True, slots=True)
class Span:
    """A length on the calendar: ``months`` and then ``seconds``. ``finest`` is its smallest unit."""

    months: Number
    seconds: Number
    finest: Unit


def read_amount(tokens: Tokens, at: int) -> Found[int] | None:
    """An amount in whole minutes, a half rounded to the even one. Amounts in months or years are None."""
    if at >= len(tokens) or (tokens[at].kind != "number" and tokens[at].text not in _FIRST_WORDS):
        return None
    if tokens[at].kind != "number":
        at = after_leads(tokens, at + 1 if tokens[at].text == "+" else at)
    colons = _read_colons(tokens, at)
    if colons is not None:
        return Found(in_minutes(colons.value), colons.end)
    span = read_span(tokens, at)
    if span is None or span.value.months:
        return None
    return Found(in_minutes(span.value.seconds), _after_flourish(tokens, span.end))


def _after_flourish(tokens: Tokens, at: int) -> int:
    second = _BEHIND.get(text_at(tokens, at))
    return at + 2 if second and text_at(tokens, at + 1) == second else at


def in_minutes(seconds: Number) -> int:
    """Whole minutes, a half rounded to the even one."""
    minutes, rest = divmod(seconds, 60)
    return int(minutes) if not rest else round(Fraction(seconds, 60))


def after_leads(tokens: Tokens, at: int) -> int:
    """The index after words such as "for about" and "an extra", at most four of them."""
    for _ in range(4):
        extra = text_at(tokens, at) in _ARTICLES and text_at(tokens, at + 1) in _EXTRAS and is_number(tokens, at + 2)
        if not extra and text_at(tokens, at) not in _LEADS:
            break
        at = at + 2 if extra else _after_point(tokens, at + 1)
    return at


def read_span(tokens: Tokens, at: int) -> Found[Span] | None:
    """An amount that may hold months and years too, for offsets from a day: 2 years 21 days."""
    part = _read_part(tokens, at) or _read_bare_unit(tokens, at)
    if part is None:
        return None
    months: Number = 0
    seconds: Number = 0
    while True:
        quantity, unit = part.value
        if unit.months:
            months += times(quantity, unit.months)
        else:
            seconds += times(quantity, unit.seconds)
        if part.end == len(tokens):
            return Found(Span(months, seconds, unit), part.end)
        following_at = _after_joint(tokens, part.end)
        following = _read_part(tokens, following_at) if begins_quantity(tokens, following_at) else None
        if following is None or following.value[1].rank >= unit.rank:
            break
        part = following
    # In 3 days 9:30 is a time on that day, where 3 days 9:30 is a length.
    is_length = unit.rank >= DAY.rank and (not at or tokens[at - 1].text != "in")
    colons = _read_colons(tokens, _after_joint(tokens, part.end)) if is_length else None
    if colons is not None:
        return Found(Span(months, seconds + colons.value, SECOND), colons.end)
    tail = _read_tail(tokens, part.end, unit)
    if tail is None:
        return Found(Span(months, seconds, unit), part.end)
    extra, finest = tail.value
    return Found(Span(months + times(extra, finest.months), seconds + times(extra, finest.seconds), finest), tail.end)


def _read_colons(tokens: Tokens, at: int) -> Found[Number] | None:
    """2:30 as hours and minutes, 2:30:15 with seconds, a unit of hours after it or not: in seconds."""
    if text_at(tokens, at + 1) != ":" or not is_glued(tokens, at + 2):
        return None
    hours, minutes = digits_at(tokens, at), digits_at(tokens, at + 2)
    if hours is None or minutes is None or minutes > 59:
        return None
    seconds = read_quantity(tokens, at + 4) if text_at(tokens, at + 3) == ":" and is_glued(tokens, at + 4) else None
    if seconds is not None and seconds.value >= 60:
        return None
    end = seconds.end if seconds else at + 3
    if text_at(tokens, end) in _CLOCK_AFTER or (text_at(tokens, end) == ":" and is_glued(tokens, end)):
        return None
    total = hours * 3600 + minutes * 60 + (seconds.value if seconds else 0)
    return Found(total, end + 1 if unit_at(tokens, end) is HOUR else end)


def _read_part(tokens: Tokens, at: int) -> Found[tuple[Number, Unit]] | None:
    quantity = read_quantity(tokens, at)
    if quantity is None:
        return None
    end = quantity.end
    if (text_at(tokens, end) == "-" and is_glued(tokens, end)) or text_at(tokens, end) in _EXTRAS:
        end += 1
    elif not isinstance(quantity.value, int) and (quantity.value < 1 or text_at(tokens, end) == "of"):
        # Half an hour, one and a quarter of an hour; but 14.20 an hour is a wage.
        end = _after_of(tokens, end)
    unit = unit_at(tokens, end)
    if unit is None or (tokens[end - 1].text in _ARTICLES and tokens[end].text not in _SPELLED):
        return None
    return Found((quantity.value, unit), _after_point(tokens, end + 1))


def _after_point(tokens: Tokens, at: int) -> int:
    """The index after the point of an abbreviation: hr., min."""
    shortened = text_at(tokens, at) == "." and tokens[at].glued and tokens[at - 1].text in _ABBREVIATED and not is_glued(tokens, at + 1)
    return at + 1 if shortened else at


def _after_of(tokens: Tokens, at: int) -> int:
    at = at + 1 if text_at(tokens, at) == "of" else at
    return at + 1 if text_at(tokens, at) in _ARTICLES else at


def unit_at(tokens: Tokens, at: int) -> Unit | None:
    """The unit that stands at ``at``; the marks of minutes and seconds only where they are glued to a number."""
    unit = UNITS.get(text_at(tokens, at))
    if unit is None or (tokens[at].kind == "mark" and not tokens[at].glued):
        return None
    return unit


def _read_bare_unit(tokens: Tokens, at: int) -> Found[tuple[Number, Unit]] | None:
    """hour, the hour, whole day, the whole day, all day, for the day: one of them."""
    first, whole = at, False
    for words in (("the", "all", "a"), ("whole", "full", "entire")):
        if text_at(tokens, at) in words:
            whole = whole or tokens[at].text not in _ARTICLES
            at += 1
    unit = _BARE_UNITS.get(text_at(tokens, at))
    said_for = at > first and first > 0 and tokens[first - 1].text == "for"
    return Found((1, unit), at + 1) if unit and (unit is HOUR or whole or said_for) else None


def _after_joint(tokens: Tokens, at: int) -> int:
    if text_at(tokens, at) == ",":
        at += 1
    return at + 1 if text_at(tokens, at) in ("and", "&", "plus") else at


def _read_tail(tokens: Tokens, at: int, unit: Unit) -> Found[tuple[Number, Unit]] | None:
    joined = text_at(tokens, at) in ("and", "&")
    start = at + 1 if joined else at
    if not begins_quantity(tokens, start):
        return None
    if joined or text_at(tokens, start) in ("½", "¼", "¾"):
        fraction = read_fraction(tokens, start)
        if fraction is not None and fraction.value < 1:
            return Found((fraction.value, unit), fraction.end)
    smaller = _SMALLER.get(unit)
    whole = read_whole(tokens, start) if smaller else None
    if smaller is None or whole is None or not 0 <= whole.value < 60 or not _may_be_tail(tokens, start, whole):
        return None
    return Found((whole.value, smaller), whole.end)


def _may_be_tail(tokens: Tokens, at: int, whole: Found[int]) -> bool:
    """Whether the number is the rest of an amount and not the start of something else, as in "2h 10-12" or "2h 30 march"."""
    following = text_at(tokens, whole.end)
    if following in _NOT_BEHIND_A_TAIL or (following in (".", ",") and is_number(tokens, whole.end + 1)):
        return False
    return tokens[at].glued or whole.value >= 10 or len(tokens[at].text) == 2
