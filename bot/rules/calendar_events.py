"""What a calendar says: single times, each with a name that lasts."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple


class EventKey(NamedTuple):
    """What names one time of one event, whichever calendar tells of it and however often it was moved.

    ``uid`` names the event. ``recurrence`` says which of its times it is: the
    start that its rule gives, as ``20260302T080000Z`` or ``20260302``; it is
    empty where the event does not recur.
    """

    uid: str
    recurrence: str


@dataclass(frozen=True, slots=True)
class CalendarEvent:
    """One time of an event of a calendar.

    ``starts`` and ``ends`` are UTC instants; those of one that is ``all_day``
    are the bounds of its days for the person. One that is not ``busy`` blocks
    no time. One that is ``cancelled`` does not take place.
    """

    uid: str
    recurrence: str
    title: str
    starts: datetime
    ends: datetime
    all_day: bool = False
    busy: bool = True
    cancelled: bool = False
    place: str = ""

    @property
    def key(self) -> EventKey:
        """What names it from one reading of its calendar to the next."""
        return EventKey(self.uid, self.recurrence)


@dataclass(frozen=True, slots=True)
class ReadCalendar:
    """What a calendar says of the days that were asked for, earliest first.

    ``name`` is its own, or empty. ``unreadable`` counts the events that could
    not be read, or not to their end. ``cut_short`` says that there was more
    than is taken.
    """

    name: str
    events: tuple[CalendarEvent, ...]
    unreadable: int = 0
    cut_short: bool = False


def in_order(events: Iterable[CalendarEvent]) -> tuple[CalendarEvent, ...]:
    """The events, earliest first, and always in the same order."""
    return tuple(sorted(events, key=lambda event: (event.starts, event.ends, event.title, event.key)))
