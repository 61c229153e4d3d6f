"""What has a day but no time of day stays on its date when the person's zone changes."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from bot.rules.local_time import day_bounds, local_day
from storage.desk import Desk

AN_INSTANT = timedelta(microseconds=1)


def keep_whole_days(desk: Desk, before: str) -> None:
    """Moves the bounds of all-day commitments and events from the days of the zone ``before`` to the same dates in the person's."""
    zone = desk.person.zone
    for commitment in desk.commitments.all():
        if commitment.all_day:
            starts, ends = _moved(commitment.starts, commitment.ends, commitment.zone, zone)
            desk.commitments.change(replace(commitment, starts=starts, ends=ends, zone=zone))
    for event in desk.calendar_events.all():
        if event.all_day:
            starts, ends = _moved(event.starts, event.ends, before, zone)
            desk.calendar_events.change(replace(event, starts=starts, ends=ends))


def _moved(starts: datetime, ends: datetime, before: str, after: str) -> tuple[datetime, datetime]:
    first = local_day(starts, before)
    last = max(first, local_day(ends - AN_INSTANT, before))
    return day_bounds(first, after)[0], day_bounds(last, after)[1]
