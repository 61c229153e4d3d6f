"""Days that an event of a calendar gave more major commitments than is good."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.today import today
from bot.rules.calendar_events import CalendarEvent
from bot.rules.load import lighter_days, load_of
from bot.rules.local_time import instant_of, local
from bot.rules.weeks import days_from, first_of_week, last_of_week
from bot.voice.replies import FullDay
from storage.desk import Desk
from storage.records import Occurrence

LOOKED_AT = timedelta(days=14)
MOST_DAYS = 2
"""Full days told at once, the earliest first."""

MOST_LIGHTER = 3


def full_days(desk: Desk, arrived: Iterable[CalendarEvent]) -> tuple[FullDay, ...]:
    """The days of the next two weeks that hold too much with what ``arrived``, each with its latest arrival and lighter days for it."""
    keys = {(event.title, event.starts) for event in arrived}
    if not keys:
        return ()
    first = today(desk)
    around = agenda(desk, first, last_of_week(first + LOOKED_AT, desk.person.week_starts))
    new = [each for each in around if (each.title, each.starts) in keys and each.commitment.major and each.ends > desk.now]
    latest = {each.day: each for each in new if each.day <= first + LOOKED_AT}
    loads = [(load_of(day, around), each) for day, each in latest.items()]
    full = [(load, each) for load, each in loads if load.too_much][:MOST_DAYS]
    return tuple(FullDay(each, load.majors, _lighter(desk, each, around)) for load, each in full)


def _lighter(desk: Desk, moving: Occurrence, around: tuple[Occurrence, ...]) -> tuple[date, ...]:
    """Days left of that week with the event's time of day still to come, the fewest commitments first."""
    zone = desk.person.zone
    at = local(moving.starts, zone).time()
    starts = desk.person.week_starts
    ahead = days_from(max(today(desk), first_of_week(moving.day, starts)), last_of_week(moving.day, starts))
    days = lighter_days(moving, around, [day for day in ahead if instant_of(day, at, zone) > desk.now], zone)
    return days[:MOST_LIGHTER]
