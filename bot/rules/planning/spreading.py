"""The hours that targets themselves have in a plan of a week, spread over its days.

The objective says how much of a target is planned, and of two plans takes the
earlier; but nobody spends ten hours with a child on Monday. What goals have
stays where it is, and no day holds more than its room, so that of the
objective's levels only the lateness of targets is given up.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from itertools import groupby
from typing import Final

from bot.rules.planning.asked import STEP_MINUTES
from bot.rules.planning.week_asked import OpenWeek, Share

PIECE_MINUTES: Final = 60
"""What a day has of a target at least, where that is possible; common practice, no source."""


def spread(week: OpenWeek, shares: Iterable[Share]) -> tuple[Share, ...]:
    """``shares`` of a plan of ``week`` with as much of each target, as evenly over the days as their room allows; in order of days."""
    targets = {target.key for target in week.targets}
    given = tuple(shares)
    kept = [share for share in given if share.key not in targets]
    left = {room.day: max(0, room.minutes) // STEP_MINUTES * STEP_MINUTES for room in week.days}
    for share in kept:
        left[share.day] -= share.minutes
    of_targets = sorted((share for share in given if share.key in targets), key=lambda share: share.key)
    for key, mine in groupby(of_targets, key=lambda share: share.key):
        for day, minutes in _evenly(sum(share.minutes for share in mine), left).items():
            left[day] -= minutes
            kept.append(Share(key, day, minutes))
    return tuple(sorted(kept, key=lambda share: share.day))


def _evenly(minutes: int, left: Mapping[date, int]) -> dict[date, int]:
    """So much of each day, quarter by quarter to that which has least, the earliest of equals; never more than is left of it."""
    days = _roomiest(minutes, left)
    given = dict.fromkeys(days, 0)
    for _ in range(minutes // STEP_MINUTES):
        given[min((day for day in days if given[day] < left[day]), key=lambda day: given[day])] += STEP_MINUTES
    return {day: each for day, each in given.items() if each}


def _roomiest(minutes: int, left: Mapping[date, int]) -> list[date]:
    """The days with the most left, in order: as many as leave each a piece of some length, or more where that is not enough room."""
    roomiest = sorted((day for day in left if left[day]), key=lambda day: -left[day])
    count = max(1, minutes // PIECE_MINUTES)
    while sum(left[day] for day in roomiest[:count]) < minutes:
        count += 1
    return sorted(roomiest[:count])
