"""Between UTC instants and the clocks on a person's wall.

A zone is an IANA name. Local times that a clock change leaves out are read
with the offset before the change, and repeated ones are the first of the two:
RFC 5545, section 3.3.5, form 3.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

ONE_DAY = timedelta(days=1)
ONE_MINUTE = timedelta(minutes=1)
ONE_SECOND = timedelta(seconds=1)


def local(instant: datetime, zone: str) -> datetime:
    """What the clocks of ``zone`` show at ``instant``, aware of the zone."""
    return instant.astimezone(ZoneInfo(zone))


def local_day(instant: datetime, zone: str) -> date:
    """The day it is in ``zone`` at ``instant``."""
    return local(instant, zone).date()


def instant_of(day: date, at: time, zone: str) -> datetime:
    """The UTC instant at which the clocks of ``zone`` show ``at`` on ``day``, read as RFC 5545 reads it.

    02:30 where the clock jumps from 02:00 to 03:00 is 03:30; of a repeated hour it is the first.
    """
    return instant_at(datetime.combine(day, at), zone)


# The same few times of a day are asked of every day of a week, and by whoever lives by the same clocks.
@lru_cache(maxsize=4096)
def instant_at(wall: datetime, zone: str) -> datetime:
    """As ``instant_of``, for what the clocks show as one value, without the zone."""
    return wall.replace(tzinfo=ZoneInfo(zone), fold=0).astimezone(UTC)


def instant_shown(day: date, at: time, zone: str) -> datetime:
    """As ``instant_of``, but of a repeated hour it is the second when ``at`` says so (``fold`` is 1, PEP 495), as a running clock may."""
    return datetime.combine(day, at, ZoneInfo(zone)).astimezone(UTC) if at.fold and exists(day, at, zone) else instant_of(day, at, zone)


def exists(day: date, at: time, zone: str) -> bool:
    """Whether the clocks of ``zone`` ever show ``at`` on ``day``. Source: PEP 495, "a safe test"."""
    return local(instant_of(day, at, zone), zone).replace(tzinfo=None) == datetime.combine(day, at.replace(fold=0))


@lru_cache(maxsize=4096)
def first_instant_from(day: date, at: time, zone: str) -> datetime:
    """The first UTC instant at which the clocks of ``zone`` show ``at`` on ``day`` or, where they skip it, what comes next."""
    if exists(day, at, zone):
        return instant_of(day, at, zone)
    return _end_of_gap(datetime.combine(day, at, ZoneInfo(zone)))


@lru_cache(maxsize=1024)
def day_bounds(day: date, zone: str) -> tuple[datetime, datetime]:
    """The UTC instants at which ``day`` starts and ends in ``zone``; the end is not part of it.

    Right where midnight is skipped (Cairo) and on days of 23, 24.5 or 25
    hours. A day that a zone left out (Apia, 2011-12-30) ends as it starts.
    """
    return first_instant_from(day, time.min, zone), first_instant_from(day + ONE_DAY, time.min, zone)


def elapsed_minutes(starts: datetime, ends: datetime) -> int:
    """Whole minutes that pass between two instants, both cut to the minute, so that the figure agrees with the times shown."""
    passed = ends.astimezone(UTC).replace(second=0, microsecond=0) - starts.astimezone(UTC).replace(second=0, microsecond=0)
    return passed // ONE_MINUTE


def _end_of_gap(skipped: datetime) -> datetime:
    """The instant of the clock change that skips the wall time ``skipped``, found by halving."""
    zone = skipped.tzinfo
    before = skipped.replace(fold=1).astimezone(UTC)
    after = skipped.replace(fold=0).astimezone(UTC)
    old_offset = before.astimezone(zone).utcoffset()
    while after - before > ONE_SECOND:
        middle = before + (after - before) // ONE_SECOND // 2 * ONE_SECOND
        if middle.astimezone(zone).utcoffset() == old_offset:
            before = middle
        else:
            after = middle
    return after
