"""Minutes that really pass between two local times, clock changes counted.

The first and last two days of the calendar borrow the days beside them, so
that a zone's offset never leads out of it.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta, tzinfo

FIRST, LAST = date.min + timedelta(days=2), date.max - timedelta(days=2)


def elapsed_minutes(day: date, start: time, end: time, zone: tzinfo | None) -> int:
    """Minutes from ``start`` on ``day`` to ``end``, which is on the next day when it is not after the start.

    A shift over a clock change is as long as it really was: both ends are
    turned into UTC before they are subtracted. Of a time that comes twice the
    first is meant, unless that would end before the start.
    """
    day = _inside(day)
    last = day if end > start else day + timedelta(days=1)
    begins = _instant(day, start, zone, 0)
    ends = _instant(last, end, zone, 0)
    if ends <= begins:
        ends = _instant(last, end, zone, 1)
    return round((ends - begins) / timedelta(minutes=1))


def later(day: date, start: time, minutes: int, zone: tzinfo | None) -> time:
    """The local time when ``minutes`` have really passed since ``start`` on ``day``."""
    return _local(_instant(_inside(day), start, zone, 0) + timedelta(minutes=minutes), zone)


def sooner(day: date, end: time, minutes: int, zone: tzinfo | None) -> time:
    """The local time ``minutes`` before ``end`` on ``day``."""
    return _local(_instant(_inside(day), end, zone, 0) - timedelta(minutes=minutes), zone)


def _inside(day: date) -> date:
    return min(max(day, FIRST), LAST)


def _instant(day: date, at: time, zone: tzinfo | None, fold: int) -> datetime:
    return datetime.combine(day, at, zone or UTC).replace(fold=fold).astimezone(UTC)


def _local(instant: datetime, zone: tzinfo | None) -> time:
    return instant.astimezone(zone or UTC).time()
