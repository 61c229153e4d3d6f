"""When the person's rounds fall due next."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, time, timedelta

from bot.rules.due import every_day, next_round
from bot.rules.weeks import last_of_month, last_of_week
from storage.desk import Desk
from storage.records import Person, RoundKind, RoundState

FallsOn = Callable[[date], bool]
"""Whether a round falls on a day."""

READ_EVERY = timedelta(hours=3)
OF_USE_AT_MOST = timedelta(hours=36)
"""A round that is later than this is of no use, whichever it is."""

USUAL_WAIT = {
    RoundKind.MORNING: timedelta(days=1),
    RoundKind.EVENING: timedelta(days=1),
    RoundKind.PAYDAY: timedelta(days=1),
    RoundKind.RECAP: timedelta(weeks=1),
    RoundKind.MONTH: timedelta(days=31),
}
"""A round is rarely longer ahead: where a clock is about to change, or after the clock of this machine ran ahead and passed it by."""

BEFORE_MORNING = timedelta(minutes=10)
"""How long before the morning message calendars are read, so that it knows what they say."""


def times_of(person: Person) -> tuple[tuple[RoundKind, time, FallsOn], ...]:
    """Each round with its local time and its days: the recap is for the last of a week, the month's for the last of a month."""

    def ends_week(day: date) -> bool:
        return day == last_of_week(day, person.week_starts)

    return (
        (RoundKind.MORNING, person.morning_at, every_day),
        (RoundKind.EVENING, person.evening_at, every_day),
        (RoundKind.RECAP, person.recap_at, ends_week),
        (RoundKind.MONTH, person.recap_at, ends_month),
        (RoundKind.PAYDAY, person.evening_at, every_day),
    )


def ends_month(day: date) -> bool:
    """Whether ``day`` is the last of its month."""
    return day == last_of_month(day)


def plan_rounds(desk: Desk) -> None:
    """Sets the next of each round, after the desk's instant. One that is due already is left for the alarm to take."""
    for kind, at, falls_on in times_of(desk.person):
        waiting = desk.rounds.waiting(kind)
        wanted = kind is not RoundKind.PAYDAY or waiting
        if wanted and not any(each.due <= desk.now for each in waiting):
            _plan(desk, kind, at, falls_on)


def plan_if_moved(desk: Desk, before: Person) -> None:
    """Plans the rounds anew where their times are no longer those of ``before``: no undo brings back when a round is due."""
    if _what_moves(desk.person) != _what_moves(before):
        plan_rounds(desk)


def _what_moves(person: Person) -> tuple[object, ...]:
    return person.morning_at, person.evening_at, person.recap_at, person.zone, person.week_starts


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
    """Sets the next round of this kind, once one of them is over; and of any kind that never was, as it came with a later version."""
    if kind is RoundKind.CALENDARS:
        plan_reading(desk)
    times = times_of(desk.person)
    # All that wait are read together, once until one is planned.
    missing = [each for each, *_ in times if each is not RoundKind.PAYDAY and not desk.rounds.waiting(each)]
    for each, at, falls_on in times:
        if each is kind or each in missing:
            _plan(desk, each, at, falls_on)


def plan_after_missing(desk: Desk, kind: RoundKind) -> None:
    """As ``plan_next``, but the newest that fell due meanwhile comes first: it may still be of use."""
    for each, at, falls_on in times_of(desk.person):
        if each is kind:
            _plan(desk, kind, at, falls_on, after=desk.now - OF_USE_AT_MOST)


def plan_reading(desk: Desk) -> None:
    """Sets when calendars are read again: every few hours, and shortly before the morning message."""
    _, morning = next_round(desk.person.morning_at, desk.now + BEFORE_MORNING, desk.person.zone)
    due = min(desk.now + READ_EVERY, morning - BEFORE_MORNING)
    desk.rounds.replan(RoundKind.CALENDARS, due.isoformat(), due)


def _plan(desk: Desk, kind: RoundKind, at: time, falls_on: FallsOn, after: datetime | None = None) -> None:
    """A local day whose round is over is passed by, so that no day has two."""
    zone = desk.person.zone
    day, due = next_round(at, after or desk.now, zone, falls_on)
    while _is_over(desk, kind, day):
        day, due = next_round(at, due, zone, falls_on)
    desk.rounds.replan(kind, day.isoformat(), due)


def _is_over(desk: Desk, kind: RoundKind, day: date) -> bool:
    """Whether the day has had its round, or missed it for good."""
    known = desk.rounds.find(kind, day.isoformat())
    if known is None or known.state is RoundState.WAITING:
        return False
    return known.state is not RoundState.MISSED or known.due <= desk.now
