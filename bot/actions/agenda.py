"""What the person's days hold: occurrences of commitments, and the hours they leave free."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from bot.actions.events import events_between
from bot.actions.today import today
from bot.language.words import AFTER_A_CATEGORY
from bot.rules.free_hours import free_minutes, free_spans, minutes_to_fill
from bot.rules.local_time import ONE_DAY, day_bounds
from bot.rules.occurrences import touching
from bot.rules.spans import Span
from bot.rules.travel import taken
from bot.rules.weeks import days_from, first_of_week, last_of_week
from bot.voice.replies import FreeHours
from storage.desk import Desk
from storage.records import Commitment, Occurrence, Task, TaskState

SAID_IN = ("commitments", "calendars", "calendar_events", "marks")
"""The tables that say what the person's days hold."""


def commitments_between(desk: Desk, first: date, last: date) -> tuple[Commitment, ...]:
    """The commitments that may take place on a local day from ``first`` to ``last``, recurring ones and those of calendars included.

    An event of a calendar for whose name and time the person has a cancelled commitment does not take place.
    """
    starts, ends = day_bounds(first, desk.person.zone)[0], day_bounds(last, desk.person.zone)[1]
    own = (*desk.commitments.singles_between(starts, ends), *desk.commitments.recurring(ends))
    off = {(each.title, each.starts) for each in own if each.cancelled}
    return (*own, *(each for each in events_between(desk, first, last) if (each.title, each.starts) not in off))


def agenda(desk: Desk, first: date, last: date) -> tuple[Occurrence, ...]:
    """Every occurrence that starts on a local day from ``first`` to ``last``, earliest first."""
    return tuple(each for each in _around(desk, first, last) if first <= each.day <= last)


def titled_on(desk: Desk, day: date, title: str) -> Occurrence | None:
    """The first occurrence of ``day`` that has all the words of ``title`` in its own; museum shift names what is called museum, too."""
    wanted = own_words(title)
    return next((each for each in agenda(desk, day, day) if wanted <= set(each.commitment.title.lower().split())), None)


def own_words(title: str) -> set[str]:
    """The words of a title, without those that may stand behind any category: shift, work."""
    words = set(title.lower().split())
    return words - AFTER_A_CATEGORY or words


def busy_on(desk: Desk, day: date) -> tuple[Occurrence, ...]:
    """Every occurrence that takes hours of ``day``, those that run in from the day before among them."""
    week = first_of_week(day, desk.person.week_starts)
    return desk.remembered(("busy", week), SAID_IN, lambda: _busy_of(desk, week)).get(day, ())


def _busy_of(desk: Desk, week: date) -> Mapping[date, tuple[Occurrence, ...]]:
    """The same of each day of a week that has some."""
    days = days_from(week, last_of_week(week, desk.person.week_starts))
    opens = {day: day_bounds(day, desk.person.zone)[0] for day in days}
    busy: dict[date, list[Occurrence]] = {}
    for each in _around(desk, week, week):
        for day in days if each.commitment.blocks_hours else ():
            if each.day == day or (each.day < day and each.ends > opens[day]):
                busy.setdefault(day, []).append(each)
    return {day: tuple(found) for day, found in busy.items()}


def _around(desk: Desk, first: date, last: date) -> tuple[Occurrence, ...]:
    """All that touches the week of ``last``, the day before it included, or more where ``first`` is earlier.

    Who asks for a day asks for its week and the day before, too, so these are expanded together, once in a unit of work.
    """
    zone, week_starts = desk.person.zone, desk.person.week_starts
    first, last = min(first, first_of_week(last, week_starts) - ONE_DAY), last_of_week(last, week_starts)
    return desk.remembered(("around", first, last), SAID_IN, lambda: touching(commitments_between(desk, first, last), first, last, zone))


def free_times(desk: Desk, day: date) -> tuple[Span, ...]:
    """The free stretches of ``day``, less what commitments and the way to them take; of today only what is left of them."""
    since = desk.now if day == today(desk) else None
    return free_spans(desk.person, day, (taken(each, desk.person.travel_minutes) for each in busy_on(desk, day)), since)


def free_on(desk: Desk, day: date) -> FreeHours:
    """The minutes of them, and how many may be filled."""
    free = free_minutes(free_times(desk, day))
    return FreeHours(free, minutes_to_fill(free, desk.person.free_share))


def minutes_needed(tasks: tuple[Task, ...]) -> int:
    """The estimates of the open ones together."""
    return sum(task.estimate_minutes or 0 for task in tasks if task.state is TaskState.OPEN)
