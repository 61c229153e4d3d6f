"""What the person's days hold: occurrences of commitments, and the hours they leave free."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from bot.actions.events import events_between
from bot.actions.today import today
from bot.rules.free_hours import free_minutes, free_spans, minutes_to_fill
from bot.rules.local_time import day_bounds
from bot.rules.occurrences import occurrences, touching
from bot.rules.travel import taken
from bot.rules.weeks import days_from
from bot.voice.replies import FreeHours
from storage.desk import Desk
from storage.records import Commitment, Occurrence, Task, TaskState


def commitments_between(desk: Desk, first: date, last: date) -> tuple[Commitment, ...]:
    """The commitments that may take place on a local day from ``first`` to ``last``, recurring ones and those of calendars included."""
    starts, ends = day_bounds(first, desk.person.zone)[0], day_bounds(last, desk.person.zone)[1]
    own = (*desk.commitments.singles_between(starts, ends), *desk.commitments.recurring(ends))
    return (*own, *events_between(desk, first, last))


def agenda(desk: Desk, first: date, last: date) -> tuple[Occurrence, ...]:
    """Every occurrence that starts on a local day from ``first`` to ``last``, earliest first."""
    return occurrences(commitments_between(desk, first, last), first, last, desk.person.zone)


def busy_on(desk: Desk, day: date) -> tuple[Occurrence, ...]:
    """Every occurrence that takes hours of ``day``, those that run in from the day before among them."""
    touched = touching(commitments_between(desk, day, day), day, day, desk.person.zone)
    return tuple(each for each in touched if each.commitment.blocks_hours)


def busy_by_day(desk: Desk, first: date, last: date) -> Mapping[date, tuple[Occurrence, ...]]:
    """What ``busy_on`` gives for each day from ``first`` to ``last``, with commitments read and expanded once."""
    found = touching(commitments_between(desk, first, last), first, last, desk.person.zone)
    busy = [each for each in found if each.commitment.blocks_hours]
    opens = {day: day_bounds(day, desk.person.zone)[0] for day in days_from(first, last)}
    return {day: tuple(each for each in busy if each.day == day or (each.day < day and each.ends > opens[day])) for day in opens}


def free_on(desk: Desk, day: date) -> FreeHours:
    """The free hours of ``day``, less what commitments and the way to them take; of today only those that are left."""
    since = desk.now if day == today(desk) else None
    free = free_minutes(free_spans(desk.person, day, (taken(each, desk.person.travel_minutes) for each in busy_on(desk, day)), since))
    return FreeHours(free, minutes_to_fill(free, desk.person.free_share))


def minutes_needed(tasks: tuple[Task, ...]) -> int:
    """The estimates of the open ones together."""
    return sum(task.estimate_minutes or 0 for task in tasks if task.state is TaskState.OPEN)
