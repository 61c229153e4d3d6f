"""Times of day as said, before anyone decides between morning and evening.

clock    := (relative | named | figures) [zone]
relative := shift ("past" | "after" | "to" | "before" | "till" | "of") (named | hour) | "half" hour
shift    := ["a"] "quarter" | "half" | minutes ["minutes"] | amount in hours
named    := "noon" | "midday" | "lunchtime" | "midnight"
zone     := "gmt" | "(pst)" | "utc+1" | …   passed over: people name the zone they are in

"ten to four" may as well be a stretch of hours, so before "to" only a quarter,
20, 25, or "minutes" make it a time; after "at" any number in words does.
"half three" is 3:30, as in Britain.
"""

from __future__ import annotations

from datetime import time

from bot.language.amounts import HOUR, MINUTE, UNITS, read_span, unit_at
from bot.language.clock_figures import read_figures, read_hour
from bot.language.context import Context
from bot.language.numbers import NUMBER_WORDS, ONES, read_whole
from bot.language.times_of_day import Clock, Look, as_time, likelihood, minutes_of, moved, readings, settled
from bot.language.tokens import Found, Tokens, is_glued, is_number, text_at

__all__ = ["minutes_of", "read_clock", "read_spoken", "readings"]

_NAMED = {"noon": 720, "midday": 720, "noontime": 720, "lunchtime": 720, "midnight": 0}
_FRACTIONS = {"half": 30, "quarter": 15}
_LATER = frozenset({"past", "after"})
_SOONER = frozenset({"to", "before", "till", "til", "of"})
_AFTER_A_SHIFT = _LATER | _SOONER | {word for word, unit in UNITS.items() if unit in (MINUTE, HOUR)} | {".", "/", "and"}
CLOCK_WORDS = frozenset(_NAMED) | NUMBER_WORDS
_SPELLED = frozenset({"minute", "minutes", "min", "mins", "hour", "hours", "hr", "hrs", "half", "quarter"})
_SURE_BEFORE_TO = frozenset({15, 20, 25})
_AT = frozenset({"at", "@", "by"})
_ZONES = frozenset("z utc gmt bst cet cest eet eest wet west est edt cst cdt mst mdt pst pdt et pt ct mt ist jst hkt sgt aest aedt".split())


def read_clock(tokens: Tokens, at: int, context: Context, look: Look | None = "back") -> Found[time] | None:
    """A time of day: 9, 9:30, 9.30, 0930, 9h30, half past nine, noon, 3 in the afternoon. A bare number counts."""
    found = read_spoken(tokens, at)
    return None if found is None else Found(as_time(settled(found.value, likelihood(context, look))[0]), found.end)


def read_spoken(tokens: Tokens, at: int) -> Found[Clock] | None:
    """A time as said, its half perhaps open."""
    if at >= len(tokens):
        return None
    if tokens[at].kind == "number":
        relative = _read_relative(tokens, at) if text_at(tokens, at + 1) in _AFTER_A_SHIFT else None
        found = relative or read_figures(tokens, at)
    elif tokens[at].text in CLOCK_WORDS:
        found = _read_relative(tokens, at) or _read_named(tokens, at) or read_figures(tokens, at)
    else:
        return None
    return Found(found.value, _after_zone(tokens, found.end)) if found else None


def _read_named(tokens: Tokens, at: int) -> Found[Clock] | None:
    minute = _NAMED.get(text_at(tokens, at))
    return None if minute is None else Found(Clock(minute), at + 1)


def _read_relative(tokens: Tokens, at: int) -> Found[Clock] | None:
    if text_at(tokens, at) == "half" and (text_at(tokens, at + 1) in ONES or is_number(tokens, at + 1)):
        base = read_hour(tokens, at + 1)
        return Found(moved(base.value, 30), base.end) if base and not unit_at(tokens, base.end) else None
    shift = _read_fraction(tokens, at) or _read_minutes(tokens, at) or _read_span(tokens, at)
    base = (_read_named(tokens, shift.end) or read_hour(tokens, shift.end)) if shift else None
    if shift is None or base is None or not _is_before(tokens, at, shift, base.value):
        return None
    return Found(moved(base.value, shift.value), base.end)


def _is_before(tokens: Tokens, at: int, shift: Found[int], base: Clock) -> bool:
    """Whether "20 to 22" is twenty minutes to, and not a stretch of hours: bare figures must not be below the hour."""
    return not is_number(tokens, at) or shift.end > at + 2 or shift.value > 0 or base.minute < -shift.value * 60


def _read_fraction(tokens: Tokens, at: int) -> Found[int] | None:
    """a quarter to, half past: the minutes to add."""
    start = at + 1 if text_at(tokens, at) == "a" else at
    minutes = _FRACTIONS.get(text_at(tokens, start))
    joint = text_at(tokens, start + 1)
    if minutes is None or not (joint in _LATER or (joint in _SOONER and minutes < 30)):
        return None
    return Found(minutes if joint in _LATER else -minutes, start + 2)


def _read_minutes(tokens: Tokens, at: int) -> Found[int] | None:
    """20 past, twenty to: a number without its unit."""
    whole = read_whole(tokens, at)
    joint = text_at(tokens, whole.end) if whole else ""
    if whole is None or not 0 < whole.value < 60 or not (joint in _LATER or joint in _SOONER):
        return None
    said_at = not is_number(tokens, at) and text_at(tokens, at - 1) in _AT if at else False
    if joint in _SOONER and not (whole.value in _SURE_BEFORE_TO or said_at):
        return None
    return Found(whole.value if joint in _LATER else -whole.value, whole.end + 1)


def _read_span(tokens: Tokens, at: int) -> Found[int] | None:
    """15 minutes past, an hour before, 15 minutes from: minutes or hours by name; 8h to 13h is a stretch of hours."""
    span = read_span(tokens, at)
    if (
        span is None
        or text_at(tokens, span.end - 1) not in _SPELLED
        or span.value.months
        or span.value.finest not in (MINUTE, HOUR)
        or span.value.seconds >= 12 * HOUR.seconds
    ):
        return None
    joint, minutes = text_at(tokens, span.end), round(span.value.seconds / 60)
    lasts = at > 0 and text_at(tokens, at - 1) == "for"
    if joint in _LATER or (joint == "from" and minutes < 60 and not lasts):
        return Found(minutes, span.end + 1)
    return Found(-minutes, span.end + 1) if joint in _SOONER else None


def _after_zone(tokens: Tokens, at: int) -> int:
    if text_at(tokens, at) in _ZONES:
        glued = is_glued(tokens, at + 1) and is_glued(tokens, at + 2)
        return at + 3 if text_at(tokens, at + 1) in ("+", "-") and glued and is_number(tokens, at + 2) else at + 1
    return at + 3 if text_at(tokens, at) == "(" and text_at(tokens, at + 1) in _ZONES and text_at(tokens, at + 2) == ")" else at
