"""A day and a time of day, in any order.

moment := piece {[joint] piece} | distance
piece  := day | hours | clock | part of day | "end of" day | "t" clock (after a date)
         | "close of business" | ("after" | "later than") clock ["and" | "but"] "before" clock
joint  := "," | "at" | "on" | "@" | "from" | "for" | "by" | "around" | "-"

Each piece may come once; the end of hours may stand behind the day of their
start: 4 pm on the 3rd to 6 pm, 9am tomorrow until 5pm tomorrow. What was said
of the parts of the day settles an open hour (7, this evening); a part without
an hour has a stated start. A time that has passed, without a day and looking
forward, is tomorrow's.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, time

from bot.language.clock import read_spoken
from bot.language.context import Context
from bot.language.dayparts import PARTS, TONIGHT, TONIGHT_WORDS, Part, read_part, read_part_after
from bot.language.days import DAY_FIRST_WORDS, read_bare_day
from bot.language.distances import Moment, read_distance, with_distance
from bot.language.hours import Hours, settled_hours
from bot.language.partial_days import day_shifted
from bot.language.relative_days import DAY_WORDS, RELATIVE_WORDS
from bot.language.times_of_day import Clock, Look, minutes_of
from bot.language.tokens import Found, Tokens, after_words, is_glued, text_at
from bot.language.unsettled_hours import TIME_FIRST_WORDS, UNTO, UnsettledHours, is_length, read_unsettled_time, runs_on
from bot.language.weekday_lists import JOINTS
from bot.language.weekdays import WEEKDAYS

__all__ = ["Moment", "read_moment"]

_BEFORE_A_TIME = frozenset({"at", "@", "by", "around", "about", "from", "after", "starting", "beginning"})
_BEHIND_A_PART = _BEFORE_A_TIME | {"of"}
_JOINTS = _BEFORE_A_TIME | {",", "on", "for", "-", "before"}
_OTHER_FIRST_WORDS = frozenset("in during end close eod cob same early late later first".split())
_FIRST_WORDS = DAY_FIRST_WORDS | TIME_FIRST_WORDS | frozenset(PARTS) | _JOINTS | _OTHER_FIRST_WORDS
_BEFORE_A_PART = frozenset({"in", "at", "during", "first"})
_SINGLE_DAYS = frozenset(WEEKDAYS) | RELATIVE_WORDS
_MOST_JOINTS = 2
_MOST_PIECES = 4
_DAWN = time(6)
_LAST_MINUTE = Clock(23 * 60 + 59)
_CLOSE_OF_BUSINESS = Clock(17 * 60)
"""Common practice, no source."""
_LUNCH = Clock(12 * 60)
_ENDS: tuple[tuple[tuple[str, ...], Clock], ...] = (
    (("eod",), _LAST_MINUTE),
    (("cob",), _CLOSE_OF_BUSINESS),
    (("close", "of", "business"), _CLOSE_OF_BUSINESS),
    (("end", "of", "business"), _CLOSE_OF_BUSINESS),
)


@dataclass(frozen=True, slots=True)
class _Said:
    """The pieces so far, and the index after the last of them."""

    end: int
    day: date | None = None
    hours: UnsettledHours | None = None
    part: Part | None = None


def read_moment(tokens: Tokens, at: int, context: Context, look: Look) -> Found[Moment] | None:
    """A day, a time, hours, or a day with either: tomorrow at 3:30, 3pm on friday, in half an hour, 26/09 1210-1340."""
    if at >= len(tokens) or (tokens[at].kind != "number" and tokens[at].text not in _FIRST_WORDS):
        return None
    distance = read_distance(tokens, at, context, look)
    pieces = None if distance and distance.end == len(tokens) else _read_pieces(tokens, at, context, look)
    return pieces if distance is None or (pieces and pieces.end > distance.end) else distance


def _read_pieces(tokens: Tokens, at: int, context: Context, look: Look) -> Found[Moment] | None:
    said = _Said(at)
    for _ in range(_MOST_PIECES):
        following = _read_piece(tokens, said, context, look)
        if following is None:
            break
        said = following
    if not said.day and not said.hours and not said.part:
        return None
    moment = _settled(said, context, look)
    if said.hours is None:
        hour = _hour_behind_name(tokens, at, said, context, look)
        moment = replace(hour, others=(*hour.others, moment)) if hour else with_distance(moment, tokens, at, context)
    return Found(moment, said.end)


def _hour_behind_name(tokens: Tokens, at: int, said: _Said, context: Context, look: Look) -> Moment | None:
    """Thursday 12 is a thursday at noon, where it might as well be the 12th: then both are meant, the hour sooner."""
    name_at = said.end - 2
    if look == "back" or name_at < at or tokens[name_at].text not in WEEKDAYS:
        return None
    day = read_bare_day(tokens[: said.end - 1], at, context, look)
    hour = read_unsettled_time(tokens[: said.end], said.end - 1) if day and day.end == said.end - 1 else None
    clock = hour.value.start if hour and hour.value.is_time else None
    return _settled(replace(said, day=day.value, hours=hour.value), context, look) if day and hour and clock and clock.bare else None


def _read_piece(tokens: Tokens, said: _Said, context: Context, look: Look) -> _Said | None:
    """What has been said and one piece more, or None when no piece follows."""
    start = said.end
    while start < said.end + _MOST_JOINTS and (text_at(tokens, start) in _JOINTS or (said.part and text_at(tokens, start) == "of")):
        start += 1
    start = after_words(tokens, start, "later", "than") or start
    if start >= len(tokens):
        return None
    ended = _with_end(tokens, said, context, look)
    if ended is not None:
        return ended
    direct = _with_day(tokens, said.end, said, context, look) if start > said.end else None
    return (
        direct
        or _with_end_of_day(tokens, start, said, context, look)
        or _with_day(tokens, start, said, context, look)
        or _with_hours(tokens, start, said, context)
        or _with_part(tokens, start, said)
    )


def _with_end(tokens: Tokens, said: _Said, context: Context, look: Look) -> _Said | None:
    """The end of hours of which the start and the day were said, perhaps with the same day again."""
    if said.day is None or said.hours is None or not said.hours.is_time or text_at(tokens, said.end) not in UNTO:
        return None
    again = read_bare_day(tokens, said.end + 1, context, look)
    at = again.end if again and again.value == said.day else said.end + 1
    end = read_spoken(tokens, at + 1 if text_at(tokens, at) in _BEFORE_A_TIME or _is_machine_time(tokens, at) else at)
    if end is None or runs_on(tokens, end.end):
        return None
    return replace(said, hours=replace(said.hours, end=end.value), end=end.end)


def _with_end_of_day(tokens: Tokens, at: int, said: _Said, context: Context, look: Look) -> _Said | None:
    """end of tomorrow, the end of the day: its last minute."""
    if said.hours is not None:
        return None
    for words, clock in _ENDS:
        after = after_words(tokens, at, *words)
        if after is not None:
            return replace(said, hours=UnsettledHours(clock), end=after)
    end = after_words(tokens, at + 1 if text_at(tokens, at) == "the" else at, "end", "of")
    if end is None:
        return None
    end = end + 1 if text_at(tokens, end) == "the" else end
    hours = UnsettledHours(_LAST_MINUTE)
    if text_at(tokens, end) == "day":
        return replace(said, hours=hours, end=end + 1)
    day = read_bare_day(tokens, end, context, look) if said.day is None and text_at(tokens, end) in _SINGLE_DAYS else None
    return replace(said, day=day.value, hours=hours, end=day.end) if day else None


def _with_day(tokens: Tokens, at: int, said: _Said, context: Context, look: Look) -> _Said | None:
    day = read_bare_day(tokens, at, context, look) if said.day is None else None
    if day is None or (said.hours is not None and _begins_list(tokens, at, day.end)):
        return None
    tonight = TONIGHT if text_at(tokens, day.end - 1) in TONIGHT_WORDS else None
    return replace(said, day=day.value, end=day.end, part=said.part or tonight)


def _begins_list(tokens: Tokens, at: int, end: int) -> bool:
    """Whether the day by its name is the first of several, which are no day of a moment: 6-12 mon tue fri."""
    joined = end + 1 if text_at(tokens, end) in JOINTS else end
    return text_at(tokens, at) in WEEKDAYS and text_at(tokens, joined) in WEEKDAYS


def _with_hours(tokens: Tokens, at: int, said: _Said, context: Context) -> _Said | None:
    """Hours, or a time alone."""
    if said.hours is not None:
        return None
    if text_at(tokens, at) == "lunch" and at > said.end and text_at(tokens, at - 1) in _BEFORE_A_TIME:
        return replace(said, hours=UnsettledHours(_LUNCH), end=at + 1)
    start = at + 1 if said.day and _is_machine_time(tokens, at) else at
    hours = read_unsettled_time(tokens, start)
    if hours is None:
        return None
    hours = _with_latest(tokens, at, hours)
    clock = hours.value.start
    if hours.value.is_time and clock and (runs_on(tokens, hours.end) or not _is_sure(tokens, start, hours.end, said, clock, context)):
        return None
    return replace(said, hours=hours.value, end=hours.end)


def _is_machine_time(tokens: Tokens, at: int) -> bool:
    """Whether the "t" of 2026-11-30T08:15 stands there."""
    return text_at(tokens, at) == "t" and is_glued(tokens, at + 1)


def _with_latest(tokens: Tokens, at: int, hours: Found[UnsettledHours]) -> Found[UnsettledHours]:
    """The time with the one before which it is to end, where the first is the one after which it is to begin."""
    if not hours.value.is_time or not at or text_at(tokens, at - 1) not in ("after", "than"):
        return hours
    before = hours.end + 1 if text_at(tokens, hours.end) in ("and", "but") else hours.end
    end = read_spoken(tokens, before + 1) if text_at(tokens, before) == "before" else None
    return Found(replace(hours.value, end=end.value), end.end) if end else hours


def _is_sure(tokens: Tokens, at: int, end: int, said: _Said, clock: Clock, context: Context) -> bool:
    """Whether a time alone is one for sure, and neither another number nor a length: 1h saturday."""
    if at == said.end and is_length(tokens, at, context):
        return False
    return not clock.bare or _is_time_here(tokens, at, end, said)


def _is_time_here(tokens: Tokens, at: int, end: int, said: _Said) -> bool:
    """Whether the neighbours of a bare number make it a time: at 7, tomorrow 3, 7 this morning."""
    if at > said.end:
        return text_at(tokens, at - 1) in _BEFORE_A_TIME
    return said.day is not None or _names_its_day(tokens, end + 1 if text_at(tokens, end) == "," else end)


def _names_its_day(tokens: Tokens, at: int) -> bool:
    """Whether "this morning", "tonight" or "tomorrow" stands there."""
    if text_at(tokens, at) == "this":
        return read_part(tokens, at + 1) is not None
    return text_at(tokens, at) in DAY_WORDS


def _with_part(tokens: Tokens, at: int, said: _Said) -> _Said | None:
    """A part of the day, by its name after a day, or as "in the afternoon"."""
    if said.part is not None:
        return None
    part = read_part_after(tokens, at) or read_part(tokens, at)
    if part is None:
        return None
    sure = said.day or text_at(tokens, at) in _BEFORE_A_PART or text_at(tokens, part.end) in _BEHIND_A_PART
    if not sure:
        return None
    return replace(said, part=part.value, end=part.end)


def _settled(said: _Said, context: Context, look: Look) -> Moment:
    today = said.day is None or said.day == context.now.date()
    hours = said.hours or _hours_of_part(said.part, context, look)
    if hours is None:
        return Moment(said.day)
    likely = settled_hours(hours, context, look if today else None, said.part)
    moments = [_moment(_day_of(said, one, context), one, context, look) for one in (likely, *likely.others)]
    return replace(moments[0], others=tuple(moments[1:]))


def _hours_of_part(part: Part | None, context: Context, look: Look) -> UnsettledHours | None:
    """Where a part of the day without an hour starts. Looking back it says nothing of when the hours began."""
    if part is None or look == "back":
        return None
    return UnsettledHours(Clock(minutes_of(context.waking_start) if part.start is None else part.start))


def _day_of(said: _Said, hours: Hours, context: Context) -> date | None:
    """The day that was said; tonight at 2 is tomorrow's night once today's is over."""
    small_hours = said.part is TONIGHT and hours.start is not None and hours.start < _DAWN and hours.start < context.now.time()
    return day_shifted(said.day, 1) if said.day and small_hours else said.day


def _moment(day: date | None, hours: Hours, context: Context, look: Look) -> Moment:
    passed = look == "forward" and day is None and hours.start is not None and minutes_of(hours.start) < minutes_of(context.now.time())
    implied = day_shifted(context.now.date(), 1) if passed else day
    return Moment(implied, hours.start, hours.end, hours.minutes, hours.break_minutes, day_said=not passed)
