"""Days and moments by their distance from now.

offset := ("in" | "within" | "after" | "+") span | "-" span | span ("ago" | "from now" | "later" | "earlier" | "days' time" | …)
        | [["in"] "the"] ("next" | "last" | …) [number] unit | number ("upcoming" | "coming") units
        | ["the"] unit ("before" | "after")
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import TypeVar

from dateutil.relativedelta import relativedelta

from bot.language.amounts import DAY, HOUR, MINUTE, UNITS, Span, after_leads, read_span
from bot.language.numbers import NUMBER_WORDS, read_whole
from bot.language.tokens import Found, Tokens, after_words, is_glued, is_number, text_at

Moving = TypeVar("Moving", date, datetime)

_AHEAD = frozenset({"in", "within", "after", "+"})
_LATER = frozenset({"later", "hence", "ahead", "away"})
_EARLIER = frozenset({"ago", "earlier", "before", "back", "prior"})
_SIDES = {"next": 1, "coming": 1, "upcoming": 1, "following": 1, "last": -1, "past": -1, "previous": -1}
_UPCOMING = frozenset({"coming", "upcoming", "next", "following"})
_UNIT_SIDES = {"before": -1, "after": 1}
_BEFORE_NEXT = frozenset(_SIDES) | {"the"}
_SIDE_WORDS = _LATER | _EARLIER | _UPCOMING | {"from", "after", "time"}
_REACH = 12
_FROM_NOW = frozenset({("from", "now"), ("from", "today"), ("after", "now")})
_SINGLE = {"day": DAY, "hour": HOUR, "hr": HOUR, "minute": MINUTE, "min": MINUTE}
_MOST_MONTHS = 12 * 500
_MOST_SECONDS = 500 * 366 * 86400
OFFSET_WORDS = _AHEAD | frozenset(_SIDES) | NUMBER_WORDS | {"the", "-"}


@dataclass(frozen=True, slots=True)
class Offset:
    """A distance from now; ``sign`` is -1 into the past."""

    span: Span
    sign: int

    @property
    def by_day(self) -> bool:
        """Whether no hours or minutes were named."""
        return self.span.finest.rank >= DAY.rank


def read_offset(tokens: Tokens, at: int) -> Found[Offset] | None:
    """A distance from now: in 3 days, 2 years 21 days later, 15 minutes ago, next 2 weeks."""
    lead = text_at(tokens, at)
    if lead in _AHEAD and text_at(tokens, at + 1) in _BEFORE_NEXT:
        return _read_next(tokens, at + 2 if tokens[at + 1].text == "the" else at + 1)
    if lead in _AHEAD:
        span = read_span(tokens, after_leads(tokens, at + 1))
        end = _after_time(tokens, span.end) if span else at
        return Found(Offset(span.value, 1), after_words(tokens, end, "or", "so") or end) if span else None
    if lead == "-" and is_number(tokens, at + 1) and is_glued(tokens, at + 1):
        return _signed(read_span(tokens, at + 1), -1)
    if lead in _SIDES or lead == "the":
        return _read_next(tokens, at + 1 if lead == "the" else at)
    if _SIDE_WORDS.isdisjoint([token.text for token in tokens[at + 1 : at + _REACH]]):
        return None
    span = read_span(tokens, at)
    return _read_counted(tokens, at) if span is None else _read_side_after(tokens, span)


def moved(moment: Moving, offset: Offset) -> Moving | None:
    """The day or moment that lies the offset away, by the wall clock; None past the calendar's ends."""
    months, seconds = offset.span.months, offset.span.seconds
    if not months < _MOST_MONTHS or not seconds < _MOST_SECONDS:
        return None
    try:
        if months:
            whole = int(months)
            moment += offset.sign * relativedelta(months=whole)
            seconds += (months - whole) * 30 * DAY.seconds
        return moment + timedelta(seconds=offset.sign * int(seconds))
    except (ValueError, OverflowError):
        return None


def _signed(span: Found[Span] | None, sign: int) -> Found[Offset] | None:
    return None if span is None else Found(Offset(span.value, sign), span.end)


def _after_time(tokens: Tokens, at: int) -> int:
    """The index after the "time" of "in 2 months' time"."""
    quoted = at + 1 if text_at(tokens, at) == "'" else at
    return quoted + 1 if text_at(tokens, quoted) == "time" else at


def _read_side_after(tokens: Tokens, span: Found[Span]) -> Found[Offset] | None:
    word = text_at(tokens, span.end)
    if word in _LATER:
        return Found(Offset(span.value, 1), span.end + 1)
    if word in _EARLIER:
        return Found(Offset(span.value, -1), span.end + 2 if text_at(tokens, span.end + 1) == "now" else span.end + 1)
    if (word, text_at(tokens, span.end + 1)) in _FROM_NOW:
        return Found(Offset(span.value, 1), span.end + 2)
    in_time = _after_time(tokens, span.end)
    return Found(Offset(span.value, 1), in_time) if in_time > span.end else None


def _read_next(tokens: Tokens, at: int) -> Found[Offset] | None:
    """next 2 weeks, the next hour, the minute after; a single week, month or year has a reader of its own."""
    side = _SIDES.get(text_at(tokens, at))
    if side is not None:
        span = read_span(tokens, at + 1)
        return _signed(
            span if span and (is_number(tokens, at + 1) or tokens[at + 1].text in NUMBER_WORDS) else read_one(tokens, at + 1), side
        )
    unit = read_one(tokens, at)
    beside = _UNIT_SIDES.get(text_at(tokens, unit.end)) if unit else None
    return None if unit is None or beside is None else Found(Offset(unit.value, beside), unit.end + 1)


def read_one(tokens: Tokens, at: int) -> Found[Span] | None:
    """One day, hour or minute, by the unit alone."""
    unit = _SINGLE.get(text_at(tokens, at))
    return Found(Span(0, unit.seconds, unit), at + 1) if unit else None


def _read_counted(tokens: Tokens, at: int) -> Found[Offset] | None:
    """2 upcoming days."""
    count = read_whole(tokens, at)
    unit = UNITS.get(text_at(tokens, count.end + 1)) if count and text_at(tokens, count.end) in _UPCOMING else None
    if count is None or unit is None:
        return None
    return Found(Offset(Span(count.value * unit.months, count.value * unit.seconds, unit), 1), count.end + 2)
