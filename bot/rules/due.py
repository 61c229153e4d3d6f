"""When a round falls due: once a local day, whatever the clocks do."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, time
from itertools import count

from bot.rules.local_time import ONE_DAY, day_bounds, first_instant_from, local_day


def due_on(day: date, at: time, zone: str) -> datetime | None:
    """The UTC instant at which a round set for ``at`` falls due on ``day`` in ``zone``.

    A skipped time falls due as soon as the clocks are past it, a repeated one
    the first time. None when the zone has no such day (Apia, 2011-12-30).
    Source: common practice, no source; POSIX leaves both cases to cron.
    """
    starts, ends = day_bounds(day, zone)
    return None if starts == ends else first_instant_from(day, at, zone)


def every_day(day: date) -> bool:
    """Whether a daily round falls on ``day``: always."""
    return True


def next_round(at: time, after: datetime, zone: str, falls_on: Callable[[date], bool] = every_day) -> tuple[date, datetime]:
    """The next local day and UTC instant, later than ``after``, at which a round set for ``at`` falls due.

    Only days that it ``falls_on`` count; of those there must be some.
    """
    first = local_day(after, zone) - ONE_DAY
    days = (first + number * ONE_DAY for number in count())
    rounds = ((day, due_on(day, at, zone)) for day in days if falls_on(day))
    return next((day, due) for day, due in rounds if due is not None and due > after)
