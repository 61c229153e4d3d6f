"""Hours from one time to another, settled: which half of the day each end means.

price of hours := price of the start + price of the end
price of a time := outside the waking window + on the wrong side of now + against the 24-hour clock it was written in
price of an end := price of the time + over midnight + longer than half a day + still to come, looking back
                   - what is taken off for hours of today that are planned so

The two ends settle each other: "9-5" ends after it starts, "11 to 3am" starts
at night, "3-4pm" takes the afternoon for both. Of all readings of both ends the
pair with the lowest price wins; more than half a day, ends outside the waking
window, passing midnight, and the wrong side of now have a price.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import time

from bot.language.context import Context
from bot.language.dayparts import Part
from bot.language.times_of_day import (
    DAY_MINUTES,
    HALF_DAY,
    Clock,
    Likelihood,
    Look,
    as_time,
    likelihood,
    minutes_of,
    readings,
    settled,
    with_part,
)
from bot.language.tokens import Found, Tokens
from bot.language.unsettled_hours import UnsettledHours, read_unsettled_hours

_TOO_LONG = 8
_OVER_MIDNIGHT = 2
_AT_BEDTIME = 1
_ENDS_AHEAD = 2
_OTHER_CLOCK = 9
_AS_PLANNED = 12
_ON_THE_WAY_OUT = 15
"""Minutes before its end in which hours are told as over; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Hours:
    """Local times and net ``minutes`` by the wall clock; the caller corrects for a clock change.

    An end before its start is on the next day. ``others`` are readings as likely as this one.
    """

    start: time | None
    end: time | None
    minutes: int | None
    break_minutes: int = 0
    others: tuple[Hours, ...] = ()


def read_hours(tokens: Tokens, at: int, context: Context, look: Look, *, today: bool = True) -> Found[Hours] | None:
    """Hours with a start, an end or both. ``today`` False: another day is meant, so now plays no part.

    "since 9" ends now; "until 3" has no start, and so no minutes.
    """
    said = read_unsettled_hours(tokens, at)
    return None if said is None else Found(settled_hours(said.value, context, look if today else None), said.end)


def settled_hours(said: UnsettledHours, context: Context, look: Look | None, part: Part | None = None) -> Hours:
    """The likeliest hours that are meant; ``part`` is the part of day that was said of their start."""
    likely = likelihood(context, look)
    start = with_part(said.start, part) if said.start and part else said.start
    if start is None:
        options = _until(said.end, context, look)
    elif said.end is not None:
        options = _between(start, said.end, likely, _planned(context) if look == "back" else frozenset())
    elif said.lasting is not None:
        options = _lasting(start, said.lasting, likely)
    elif said.until_now:
        options = _until_now(start, likelihood(context, "back"))
    else:
        options = [Hours(as_time(minute), None, None) for minute in settled(start, likely)]
    first, *others = options
    return less(replace(first, others=tuple(others)) if others else first, said.break_minutes)


def less(hours: Hours, pause: int) -> Hours:
    """The same hours less a break of ``pause`` minutes, no further than to nothing."""
    if not pause:
        return hours
    minutes = None if hours.minutes is None else max(0, hours.minutes - pause)
    others = tuple(less(other, pause) for other in hours.others)
    return replace(hours, minutes=minutes, break_minutes=hours.break_minutes + pause, others=others)


def _planned(context: Context) -> frozenset[tuple[int, int]]:
    return frozenset((minutes_of(each.start), minutes_of(each.end)) for each in context.planned)


def _between(first: Clock, last: Clock, likely: Likelihood, planned: frozenset[tuple[int, int]]) -> list[Hours]:
    prices: dict[tuple[int, int], int] = {}
    # What is written by the 24-hour clock leaves its half open hardly at all.
    as_planned = 0 if first.price else _AS_PLANNED
    for start in readings(first):
        # Who says 20:00 for the end says 6:00 for the start on the same clock.
        price = likely.price_of_start(first, start) + (_OTHER_CLOCK if last.full and start == first.other else 0)
        for end in readings(last):
            prices[start, end] = price + _price_of_end(last, start, end, likely) - (as_planned if (start, end) in planned else 0)
    return [Hours(as_time(start), as_time(end), (end - start) % DAY_MINUTES) for start, end in _cheapest(prices)]


def _lasting(first: Clock, minutes: int, likely: Likelihood) -> list[Hours]:
    prices: dict[tuple[int, int], int] = {}
    for start in readings(first):
        end = (start + minutes) % DAY_MINUTES
        prices[start, end] = likely.price_of_start(first, start) + _price_of_end(Clock(end), start, end, likely)
    return [Hours(as_time(start), as_time(end), minutes) for start, end in _cheapest(prices)]


def _cheapest(prices: dict[tuple[int, int], int]) -> list[tuple[int, int]]:
    least = min(prices.values())
    return sorted(pair for pair, price in prices.items() if price == least)


def _price_of_end(clock: Clock, start: int, end: int, likely: Likelihood) -> int:
    price = likely.price_of_hour(end)
    price += _OVER_MIDNIGHT if end < start else 0
    price += _AT_BEDTIME if end == likely.sleeps and likely.look != "back" else 0
    price += _ENDS_AHEAD if likely.look == "back" and start <= likely.now < end - _ON_THE_WAY_OUT else 0
    price += 0 if 0 < (end - start) % DAY_MINUTES <= HALF_DAY else _TOO_LONG
    return price + clock.price if end == clock.other else price


def _until(end: Clock | None, context: Context, look: Look | None) -> list[Hours]:
    """Hours of which only the end was said; looking back, it may well be yet to come."""
    likely = likelihood(context, None if look == "back" else look)
    return [Hours(None, as_time(minute), None) for minute in settled(end, likely)] if end else [Hours(None, None, None)]


def _until_now(start: Clock, likely: Likelihood) -> list[Hours]:
    first = settled(start, likely)[0]
    return [Hours(as_time(first), as_time(likely.now), (likely.now - first) % DAY_MINUTES)]
