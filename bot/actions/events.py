"""What the person's calendars hold, as commitments with what the person said of them."""

from __future__ import annotations

from datetime import date

from bot.rules.calendar_commitments import CalendarCommitment, calendar_commitments
from bot.rules.local_time import day_bounds
from bot.rules.marks import Mark, MarkRule
from storage.desk import Desk
from storage.records import Marking


def events_between(desk: Desk, first: date, last: date) -> tuple[CalendarCommitment, ...]:
    """The events that touch a local day from ``first`` to ``last``."""
    names = {calendar.id: calendar.name for calendar in desk.calendars.all()}
    if not names:
        return ()
    zone = desk.person.zone
    events = desk.calendar_events.between(day_bounds(first, zone)[0], day_bounds(last, zone)[1])
    named = [(names[event.calendar_id], event) for event in sorted(events, key=lambda event: event.calendar_id)]
    return calendar_commitments(named, mark_rules(desk), first, last, zone)


def mark_rules(desk: Desk) -> tuple[MarkRule, ...]:
    """What the person said of events by their words."""
    return tuple(MarkRule(each.words, _mark(each)) for each in desk.marks.all())


def _mark(said: Marking) -> Mark:
    return Mark(said.category_id, said.minor, said.outdoors, said.minutes_before, said.minutes_after)
