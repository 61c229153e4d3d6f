"""The events of calendars as commitments beside the person's own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from bot.rules.calendar_events import CalendarEvent, EventKey
from bot.rules.local_time import day_bounds, local_day
from bot.rules.marks import MarkRule, mark
from bot.rules.weeks import days_from
from storage.records import Commitment, KeptEvent

UNTITLED = "Untitled"
AN_INSTANT = timedelta(microseconds=1)


@dataclass(frozen=True, slots=True)
class CalendarCommitment(Commitment):
    """A commitment that ``calendar`` tells of, and that can be moved and cancelled only there.

    Its id is the event's, below zero, so that it never names one of the person's own.
    """

    calendar: str = ""
    busy: bool = True

    @property
    def blocks_hours(self) -> bool:
        """Whether its hours are taken."""
        return self.busy and not self.all_day


def event_of(kept: KeptEvent) -> CalendarEvent:
    """The event as it was read."""
    return CalendarEvent(
        kept.uid, kept.recurrence, kept.title, kept.starts, kept.ends, kept.all_day, kept.busy, kept.cancelled, kept.place
    )  # fmt: skip


def calendar_commitments(
    events: Iterable[tuple[str, KeptEvent]], rules: Iterable[MarkRule], first: date, last: date, zone: str
) -> tuple[CalendarCommitment, ...]:
    """The events, each with its calendar's name, as commitments of the local days from ``first`` to ``last``.

    The same event of two calendars is one; the calendar named first decides.
    One for several whole days is there on each of them. Cancelled ones are
    left out. What blocks no time is minor, unless a rule says otherwise.
    """
    said = tuple(rules)
    found: dict[EventKey, CalendarCommitment | None] = {}
    for calendar, event in events:
        found.setdefault(EventKey(event.uid, event.recurrence), None if event.cancelled else _commitment(calendar, event, said, zone))
    return tuple(each for one in found.values() if one is not None for each in _by_day(one, first, last, zone))


def _commitment(calendar: str, event: KeptEvent, rules: tuple[MarkRule, ...], zone: str) -> CalendarCommitment:
    said = mark(event.title, rules)
    return CalendarCommitment(
        id=-event.id,
        title=event.title or UNTITLED,
        starts=event.starts,
        ends=event.ends,
        zone=zone,
        category_id=said.category_id,
        major=not said.minor if said.minor is not None else event.busy and not event.all_day,
        outdoors=bool(said.outdoors),
        all_day=event.all_day,
        minutes_before=said.minutes_before,
        minutes_after=said.minutes_after,
        calendar=calendar,
        busy=event.busy,
    )


def _by_day(commitment: CalendarCommitment, first: date, last: date, zone: str) -> Iterator[CalendarCommitment]:
    if not commitment.all_day:
        yield commitment
        return
    begins = local_day(commitment.starts, zone)
    ends = max(begins, local_day(commitment.ends - AN_INSTANT, zone))
    for day in days_from(max(begins, first), min(ends, last)):
        starts, over = day_bounds(day, zone)
        yield replace(commitment, starts=starts, ends=over)
