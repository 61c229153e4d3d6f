"""Times of day whose half may have been left open, and which half is meant."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import time
from typing import Literal, TypeAlias

from bot.language.context import Context
from bot.language.dayparts import Part

Look: TypeAlias = Literal["back", "forward"]

HALF_DAY = 12 * 60
DAY_MINUTES = 24 * 60

_ASLEEP = 3
_UP_EARLY = 1
_PASSED = 1
_YET_TO_COME = 4
_EARLY = 60
"""Minutes before the waking window in which who looks back may well have begun; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Clock:
    """A time of day in minutes since midnight, as said.

    ``other`` is the other half of the day where it was left open; ``price`` is
    what the other costs, which is nothing for 3:30 but something for 0330 and
    3h30, for these mostly mean the 24-hour clock. ``bare`` marks a number
    that only its neighbours make a time, ``full`` one that only the 24-hour
    clock has: 15:00.
    """

    minute: int
    other: int | None = None
    price: int = 0
    bare: bool = False
    full: bool = False


def readings(clock: Clock) -> tuple[int, ...]:
    """What it may mean, in minutes since midnight."""
    return (clock.minute,) if clock.other is None else (clock.minute, clock.other)


@dataclass(frozen=True, slots=True)
class Likelihood:
    """What makes a reading likely: the waking window, and ``now`` with the side of it that is meant, None for another day.

    All times are minutes since midnight.
    """

    wakes: int
    sleeps: int
    now: int
    look: Look | None

    def price_of_start(self, clock: Clock, minute: int) -> int:
        """How unlikely one reading of a clock is as a start: 0 for a usual one."""
        price = self.price_of_hour(minute) or (_ASLEEP if minute == self.sleeps else 0)
        if self.look == "forward" and minute < self.now:
            price += _PASSED
        if price and self.look == "back" and 0 < (self.wakes - minute) % DAY_MINUTES <= _EARLY:
            price = _UP_EARLY
        if self.look == "back" and minute > self.now:
            price += _YET_TO_COME
        return price + clock.price if minute == clock.other else price

    def price_of_hour(self, minute: int) -> int:
        """What it costs to lie outside the waking window; both its ends are inside."""
        if self.wakes <= self.sleeps:
            return 0 if self.wakes <= minute <= self.sleeps else _ASLEEP
        return 0 if minute >= self.wakes or minute <= self.sleeps else _ASLEEP


def likelihood(context: Context, look: Look | None) -> Likelihood:
    """That of the person, now."""
    now = context.now
    return Likelihood(minutes_of(context.waking_start), minutes_of(context.waking_end), now.hour * 60 + now.minute, look)


def settled(clock: Clock, likely: Likelihood) -> tuple[int, ...]:
    """Its readings that are as likely as the likeliest, the earliest first.

    A reading outside the waking window is less likely, and so is one on the wrong side of now.
    """
    if clock.other is None:
        return (clock.minute,)
    first, other = likely.price_of_start(clock, clock.minute), likely.price_of_start(clock, clock.other)
    if first == other:
        return (clock.minute, clock.other) if clock.minute < clock.other else (clock.other, clock.minute)
    return (clock.minute,) if first < other else (clock.other,)


def with_part(clock: Clock, part: Part) -> Clock:
    """The clock held to a part of the day: 3 in the afternoon, 12 at night. One that it cannot be is left alone."""
    options = [minute for minute in readings(clock) if part.holds(minute)]
    return replace(clock, minute=options[0], other=None, bare=False) if options else clock


def moved(clock: Clock, minutes: int) -> Clock:
    """The time so many minutes later, around midnight."""
    first, *other = ((minute + minutes) % DAY_MINUTES for minute in readings(clock))
    return Clock(first, other[0] if other else None)


def as_time(minute: int) -> time:
    """Minutes since midnight as a local time; 24:00 is 00:00."""
    return time(minute // 60 % 24, minute % 60)


def minutes_of(moment: time) -> int:
    """Whole minutes since midnight."""
    return moment.hour * 60 + moment.minute
