"""Moments by their distance from now, and the time that goes along with a distance in days.

distance := ["from"] now [("to" | "until" | "-") clock | "for" amount] | ("this" | "same") "time" (day | "next week" | "last month" | …)
          | ["today"] offset in hours or minutes | "for" length

"In 2 weeks" may be meant to the minute or as a day, and "next month" as a month
from now or as the month; whoever asks for a moment gets both.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from bot.language.amounts import DAY, MONTH, QUARTER, WEEK, YEAR, Span, Unit, read_amount, read_span
from bot.language.clock import read_clock
from bot.language.context import Context
from bot.language.days import read_bare_day
from bot.language.offsets import Offset, moved, read_offset
from bot.language.relative_days import read_now
from bot.language.times_of_day import DAY_MINUTES, Look
from bot.language.tokens import Found, Tokens, text_at
from bot.language.unsettled_hours import UNTO

_SIDES = {"next": 1, "last": -1}
_PERIODS = {"month": MONTH, "year": YEAR, "quarter": QUARTER, "qtr": QUARTER}
_SPANS = {**_PERIODS, "week": WEEK}


@dataclass(frozen=True, slots=True)
class Moment:
    """``day`` is None where none was said or implied; ``minutes`` are net of the break.

    ``day_said`` is False where the day only follows from the time having passed.
    ``distance`` is the moment as far from now as was said, where that was in
    whole days and without a time: in 2 weeks, next year. ``others`` are as
    likely as this one.
    """

    day: date | None = None
    start: time | None = None
    end: time | None = None
    minutes: int | None = None
    break_minutes: int = 0
    others: tuple[Moment, ...] = ()
    day_said: bool = True
    distance: datetime | None = None


def read_distance(tokens: Tokens, at: int, context: Context, look: Look) -> Found[Moment] | None:
    """now; in half an hour; today in one hour; 15 minutes ago; same time tomorrow."""
    now = read_now(tokens, at + 1 if text_at(tokens, at) == "from" else at)
    if now is not None:
        return _read_from_now(tokens, now, context)
    if text_at(tokens, at) in ("this", "same") and text_at(tokens, at + 1) == "time":
        away = _read_next(tokens, at + 2, _SPANS)
        then = moved(context.now, away.value) if away else None
        if away and then:
            return Found(Moment(then.date(), _to_minute(context.now)), away.end)
        day = read_bare_day(tokens, at + 2, context, look)
        return Found(Moment(day.value, _to_minute(context.now)), day.end) if day else None
    lasting = read_span(tokens, at + 1) if text_at(tokens, at) == "for" else None
    if lasting is not None and lasting.value.finest.rank < DAY.rank:
        return _read_length(lasting, context)
    offset = read_offset(tokens, at + 1 if text_at(tokens, at) == "today" else at)
    there = moved(context.now, offset.value) if offset and not offset.value.by_day else None
    return Found(Moment(there.date(), _to_minute(there)), offset.end) if offset and there else None


def _read_from_now(tokens: Tokens, at: int, context: Context) -> Found[Moment]:
    """This moment, and hours that begin with it: now until 3pm, from now for two hours."""
    today, now = context.now.date(), _to_minute(context.now)
    if text_at(tokens, at) in UNTO:
        end = read_clock(tokens, at + 1, context, "forward")
        return Found(Moment(today, now, end.value), end.end) if end else Found(Moment(today, now), at)
    lasting = read_amount(tokens, at + 1) if text_at(tokens, at) == "for" else None
    there = context.now + timedelta(minutes=lasting.value) if lasting and lasting.value < DAY_MINUTES else None
    return Found(Moment(today, now, _to_minute(there)), lasting.end) if lasting and there else Found(Moment(today, now), at)


def _read_length(lasting: Found[Span], context: Context) -> Found[Moment] | None:
    """A length and no time, for an hour: it lies between now and the moment, or begins now; both are as likely."""
    there, now = moved(context.now, Offset(lasting.value, 1)), context.now
    if there is None:
        return None
    begins_now = Moment(now.date(), _to_minute(now), _to_minute(there), round((there - now).total_seconds() / 60))
    return Found(Moment(there.date(), _to_minute(there), others=(begins_now,)), lasting.end)


def with_distance(moment: Moment, tokens: Tokens, at: int, context: Context) -> Moment:
    """The moment, marked where its day was said as a distance from now."""
    offset = (read_offset(tokens, at) or _read_next(tokens, at)) if moment.start is None else None
    return replace(moment, distance=moved(context.now, offset.value)) if offset else moment


def _read_next(tokens: Tokens, at: int, periods: dict[str, Unit] = _PERIODS) -> Found[Offset] | None:
    """next month, last year: a month or a year from now, or the next one from its first day on."""
    sign, unit = _SIDES.get(text_at(tokens, at)), periods.get(text_at(tokens, at + 1))
    return Found(Offset(Span(unit.months, unit.seconds, unit), sign), at + 2) if sign and unit else None


def _to_minute(there: datetime) -> time:
    return time(there.hour, there.minute)
