"""When the person's rounds fall due next."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from bot.rules.due import next_round
from storage.desk import Desk
from storage.records import Person, RoundKind, RoundState, Weekday

READ_EVERY = timedelta(hours=3)
OF_USE_AT_MOST = timedelta(hours=36)
"""A round that is later than this is of no use, whichever it is."""

BEFORE_MORNING = timedelta(minutes=10)
"""How long before the morning message calendars are read, so that it knows what they say."""


def times_of(person: Person) -> tuple[tuple[RoundKind, time, Weekday | None], ...]:
    """Each round with its local time and, for the recap, its day: the last one of the person's week."""
    last_day = Weekday((person.week_starts + 6) % 7)
    return (
        (RoundKind.MORNING, person.morning_at, None),
        (RoundKind.EVENING, person.evening_at, None),
        (RoundKind.RECAP, person.recap_at, last_day),
        (RoundKind.PAYDAY, person.evening_at, None),
    )


def plan_rounds(desk: Desk) -> None:
    """Sets the next of each round, after the desk's instant. One that is due already is left for the alarm to take."""
    for kind, at, weekday in times_of(desk.person):
        waiting = desk.rounds.waiting(kind)
        wanted = kind is not RoundKind.PAYDAY or waiting
        if wanted and not any(each.due <= desk.now for each in waiting):
            _plan(desk, kind, at, weekday)


def plan_again(desk: Desk) -> None:
    """Plans as if nothing had been planned yet: after a clock that was put back, what waits may wait for a far day."""
    plan_rounds(desk)
    if any(waiting.due > desk.now + READ_EVERY for waiting in desk.rounds.waiting(RoundKind.CALENDARS)):
        plan_reading(desk)


def plan_paydays(desk: Desk) -> None:
    """From now on paydays are looked for every evening. Once begun this goes on, so that no undo can leave a payday untold."""
    if not desk.rounds.waiting(RoundKind.PAYDAY):
        plan_next(desk, RoundKind.PAYDAY)


def plan_next(desk: Desk, kind: RoundKind) -> None:
    """Sets the next round of this kind, once one of them is over. One that comes but once has no next."""
    if kind is RoundKind.CALENDARS:
        plan_reading(desk)
    for each, at, weekday in times_of(desk.person):
        if each is kind:
            _plan(desk, kind, at, weekday)


def plan_after_missing(desk: Desk, kind: RoundKind) -> None:
    """As ``plan_next``, but the newest that fell due meanwhile comes first: it may still be of use."""
    for each, at, weekday in times_of(desk.person):
        if each is kind:
            _plan(desk, kind, at, weekday, after=desk.now - OF_USE_AT_MOST)


def plan_reading(desk: Desk) -> None:
    """Sets when calendars are read again: every few hours, and shortly before the morning message."""
    _, morning = next_round(desk.person.morning_at, desk.now + BEFORE_MORNING, desk.person.zone)
    due = min(desk.now + READ_EVERY, morning - BEFORE_MORNING)
    desk.rounds.replan(RoundKind.CALENDARS, due.isoformat(), due)


def _plan(desk: Desk, kind: RoundKind, at: time, weekday: Weekday | None, after: datetime | None = None) -> None:
    """A local day whose round is over is passed by, so that no day has two."""
    zone = desk.person.zone
    day, due = next_round(at, after or desk.now, zone, weekday)
    while _is_over(desk, kind, day):
        day, due = next_round(at, due, zone, weekday)
    desk.rounds.replan(kind, day.isoformat(), due)


def _is_over(desk: Desk, kind: RoundKind, day: date) -> bool:
    """Whether the day has had its round, or missed it for good."""
    known = desk.rounds.find(kind, day.isoformat())
    return known is not None and (known.state is RoundState.DONE or (known.state is RoundState.MISSED and known.due <= desk.now))
