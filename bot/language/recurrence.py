"""What comes again, as RFC 5545 rule text.

rule  := cycle {[","] ([part of day] | ["at"] times | end | beginning)}
end   := ("until" | "till" | "through") day | "for" number unit | ["for"] number "times"
beginning := ("from" | "starting" ["on"] | "beginning" ["on"]) day
times := hours | clock

Source of the rule's form: RFC 5545, section 3.3.10. UNTIL is a date there, the
last day on which it may fall; COUNT and UNTIL exclude each other, so the first
one said holds.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from bot.language.amounts import DAY, UNITS, Span, read_span
from bot.language.context import Context
from bot.language.cycle import Cycle
from bot.language.cycles import read_cycle
from bot.language.dayparts import Part, read_part, read_part_after
from bot.language.days import read_day
from bot.language.hours import Hours, settled_hours
from bot.language.month_names import MONTHS
from bot.language.nth_days import read_months
from bot.language.numbers import read_whole
from bot.language.offsets import Offset, moved
from bot.language.partial_days import day_or_none, day_shifted
from bot.language.standpoint import standpoint
from bot.language.tokens import Found, Tokens, text_at
from bot.language.unsettled_hours import UnsettledHours, is_length, read_unsettled_time, runs_on
from bot.rules.weeks import DAY_CODES
from storage.records import Weekday

_UNTIL = frozenset({"until", "till", "til", "through", "ending"})
_BEGINNING = frozenset({"from", "starting", "beginning", "since"})
_COUNTS = {"once": 1, "twice": 2, "thrice": 3}
_TIMES = frozenset({"times", "occurrences", "x", "time"})
_BEFORE_A_COUNT = frozenset({"for", "the", "next", "up", "to"})
_BEFORE_A_TIME = frozenset({"at", "@", "around", "about"})
_WEEKLY = "FREQ=WEEKLY;BYDAY="
_MOST_PIECES = 5
_DAYS_SEARCHED = 366 * 8


@dataclass(frozen=True, slots=True)
class Rule:
    """``text`` is an RRULE's value; ``first`` the first day it falls on, from now on; times where they stood inside."""

    text: str
    first: date | None
    start: time | None = None
    end: time | None = None


@dataclass(frozen=True, slots=True)
class _Said:
    end: int
    cycle: Cycle
    hours: UnsettledHours | None = None
    part: Part | None = None
    count: int | None = None
    last: date | None = None
    lasting: Offset | None = None
    beginning: date | None = None

    @property
    def is_bounded(self) -> bool:
        return self.count is not None or self.last is not None or self.lasting is not None


def read_rule(tokens: Tokens, at: int, context: Context) -> Found[Rule] | None:
    """A recurrence: every tue and thu 9-11, first friday of the month, every day until june, tuesdays 10 times."""
    cycle = read_cycle(tokens, at)
    if cycle is None:
        return None
    said = _Said(cycle.end, cycle.value)
    for _ in range(_MOST_PIECES):
        following = _read_piece(tokens, said, context)
        if following is None:
            break
        said = following
    return Found(_rule(said, context), said.end)


def _read_piece(tokens: Tokens, said: _Said, context: Context) -> _Said | None:
    at = said.end + 1 if text_at(tokens, said.end) == "," else said.end
    return (
        _with_end(tokens, at, said, context)
        or _with_beginning(tokens, at, said, context)
        or _with_hours(tokens, at, said, context)
        or _with_part(tokens, at, said)
    )


def _with_end(tokens: Tokens, at: int, said: _Said, context: Context) -> _Said | None:
    if said.is_bounded:
        return None
    if text_at(tokens, at) in _UNTIL or (said.beginning and text_at(tokens, at) == "to"):
        return _until(tokens, at + 1, said, context)
    start = at
    while text_at(tokens, start) in _BEFORE_A_COUNT and start < at + 3:
        start += 1
    count = _read_count(tokens, start)
    if count is not None:
        return replace(said, count=count.value, end=count.end)
    span = read_span(tokens, start) or _read_single(tokens, start) if start > at else None
    if span is None or span.value.finest.rank < DAY.rank:
        return None
    return replace(said, lasting=Offset(span.value, 1), end=span.end)


def _read_count(tokens: Tokens, at: int) -> Found[int] | None:
    """10 times, 3x, twice."""
    if text_at(tokens, at) in _COUNTS:
        return Found(_COUNTS[text_at(tokens, at)], at + 1)
    count = read_whole(tokens, at)
    return Found(count.value, count.end + 1) if count and text_at(tokens, count.end) in _TIMES and 0 < count.value < 1000 else None


def _read_single(tokens: Tokens, at: int) -> Found[Span] | None:
    """month, year: one of them, behind "for the next"."""
    unit = UNITS.get(text_at(tokens, at))
    return Found(Span(unit.months, unit.seconds, unit), at + 1) if unit and text_at(tokens, at - 1) == "next" else None


def _until(tokens: Tokens, at: int, said: _Said, context: Context) -> _Said | None:
    """until june ends with may, until 3 june with that day; both after the beginning."""
    if said.beginning is not None:
        context = replace(context, now=datetime.combine(said.beginning, context.now.timetz()))
    last = _read_last(tokens, at, context)
    return replace(said, last=last.value, end=last.end) if last else None


def read_until(tokens: Tokens, at: int, context: Context) -> Found[date] | None:
    """The end of a recurrence that stands apart from it: until may 1."""
    return _read_last(tokens, at + 1, context) if text_at(tokens, at) in _UNTIL else None


def until(rule: str, last: date) -> str | None:
    """The rule with its last day; None for one that ends already."""
    return None if "UNTIL=" in rule or "COUNT=" in rule else f"{rule};UNTIL={last:%Y%m%d}"


def _read_last(tokens: Tokens, at: int, context: Context) -> Found[date] | None:
    """june ends with may, 3 june with that day."""
    day = read_day(tokens, at, context, "forward", alone=True)
    months = read_months(tokens, at, standpoint(context, "forward")) if text_at(tokens, at) in MONTHS else None
    if months is not None and (day is None or day.end <= months.end):
        first = next((first for first in months.value if first > context.now.date()), None)
        before = day_shifted(first, -1) if first else None
        return Found(before, months.end) if before else None
    return day


def _with_beginning(tokens: Tokens, at: int, said: _Said, context: Context) -> _Said | None:
    if said.beginning is not None or text_at(tokens, at) not in _BEGINNING:
        return None
    day = read_day(tokens, at + 1, context, "forward")
    return replace(said, beginning=day.value, end=day.end) if day else None


def _with_hours(tokens: Tokens, at: int, said: _Said, context: Context) -> _Said | None:
    if said.hours is not None:
        return None
    joined = text_at(tokens, at) in _BEFORE_A_TIME
    start = at + 1 if joined else at
    hours = read_unsettled_time(tokens, start)
    if hours is None:
        return None
    clock = hours.value.start
    lone = clock is not None and clock.bare and not _is_time_of_days(tokens, start, said)
    unsure = clock is not None and not joined and (lone or is_length(tokens, start, context))
    if hours.value.is_time and (runs_on(tokens, hours.end) or unsure):
        return None
    return replace(said, hours=hours.value, end=hours.end)


def _is_time_of_days(tokens: Tokens, at: int, said: _Said) -> bool:
    """Four figures to five minutes behind days by their names are no year: thursdays 1630."""
    figures = text_at(tokens, at)
    return bool(said.cycle.days) and len(figures) == 4 and figures.isdigit() and int(figures) % 5 == 0


def _with_part(tokens: Tokens, at: int, said: _Said) -> _Said | None:
    part = None if said.part else read_part(tokens, at) or read_part_after(tokens, at)
    return replace(said, part=part.value, end=part.end) if part else None


def _rule(said: _Said, context: Context) -> Rule:
    hours = _hours(said, context)
    first = _first_day(said, hours, context)
    text = said.cycle.rule()
    if said.cycle.interval > 1 and said.cycle.frequency == "WEEKLY" and context.week_starts != Weekday.MONDAY:
        text += f";WKST={DAY_CODES[context.week_starts]}"
    last = _not_before(first, said.last)
    if said.lasting is not None and first is not None:
        after = moved(first, said.lasting)
        last = day_shifted(after, -1) if after else None
    if said.count is not None:
        text += f";COUNT={said.count}"
    elif last is not None:
        text += f";UNTIL={last:%Y%m%d}"
    return Rule(text, first, hours.start, hours.end)


def _not_before(first: date | None, last: date | None) -> date | None:
    """The last day; where it would fall on no day at all until then, that of the year after is meant: until 1 june, said on that day."""
    passed = first is not None and last is not None and last < first
    return day_or_none(last.year + 1, last.month, last.day) or last if passed and last is not None else last


def first_ahead(rule: str, first: date | None, start: time | None, now: datetime) -> date | None:
    """The first day of a weekly rule; not today where its time has passed, which was not said within the rule: 6-12 mon and tue."""
    if first != now.date() or start is None or start >= now.time() or not rule.startswith(_WEEKLY):
        return first
    codes = rule.removeprefix(_WEEKLY).split(";")[0].split(",")
    ahead = (first + timedelta(days=days) for days in range(1, 8))
    return next(day for day in ahead if DAY_CODES[day.weekday()] in codes)


def _hours(said: _Said, context: Context) -> Hours:
    if said.hours is None:
        return Hours(None, None, None)
    return settled_hours(said.hours, context, None, said.part)


def _first_day(said: _Said, hours: Hours, context: Context) -> date | None:
    """The first day from now on, or from the beginning that was said; not today where the time has passed."""
    today = context.now.date()
    day: date | None = said.beginning or today
    if day == today and hours.start is not None and hours.start < context.now.time():
        day = day_shifted(today, 1)
    for _ in range(_DAYS_SEARCHED):
        if day is None or said.cycle.falls_on(day):
            break
        day = day_shifted(day, 1)
    return day
