"""Replies about calendars of others."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Literal

from bot.rules.calendar_changes import CalendarChanges
from bot.voice.replies.reply import Reply
from storage.records import Calendar, Marking, Occurrence


@dataclass(frozen=True, slots=True)
class FullDay:
    """A day that an event of a calendar gave more major commitments than is good, and days that event could be moved to."""

    occurrence: Occurrence
    majors: int
    lighter: tuple[date, ...]


@dataclass(frozen=True, slots=True)
class CalendarKept(Reply):
    """A calendar read for the first time: how many events it holds, of how many entries, and what of it lies in the next two weeks."""

    calendar: Calendar
    entries: int
    events: int
    ahead: tuple[Occurrence, ...]
    full: tuple[FullDay, ...] = ()
    unreadable: int = 0
    cut_short: bool = False


@dataclass(frozen=True, slots=True)
class CalendarsChanged(Reply):
    """What is new, moved or gone in the next two weeks, by the calendar's name; nothing where the person asked and nothing is."""

    changes: tuple[tuple[str, CalendarChanges], ...]
    full: tuple[FullDay, ...] = ()


@dataclass(frozen=True, slots=True)
class CalendarSought(Reply):
    """The calendar at ``link`` is being read."""

    link: str


@dataclass(frozen=True, slots=True)
class FileBeingRead(Reply):
    """A long file is being read: so many ``events`` of about so many are done; none yet where ``of`` is 0."""

    name: str
    events: int = 0
    of: int = 0


CalendarFault = Literal[
    "not reached", "no calendar", "too large", "not secure", "private address", "refused", "no link",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class CalendarUnread(Reply):
    """A file or link, by what it is called, that gave no calendar; nothing was changed."""

    about: str
    fault: CalendarFault


@dataclass(frozen=True, slots=True)
class CalendarLine:
    """A calendar, how many of its events are kept, of how many entries, and when its link was read last."""

    calendar: Calendar
    entries: int
    events: int
    read: datetime | None


@dataclass(frozen=True, slots=True)
class CalendarsView(Reply):
    lines: tuple[CalendarLine, ...]


@dataclass(frozen=True, slots=True)
class CalendarChanged(Reply):
    """``events`` are those that went with a calendar that was removed."""

    calendar: Calendar
    how: Literal["pause", "resume", "remove"]
    entries: int = 0
    events: int = 0


@dataclass(frozen=True, slots=True)
class EventsMarked(Reply):
    """What holds from now on for events with these words, and how many lie ahead."""

    marking: Marking
    category: str | None
    entries: int
    events: int


@dataclass(frozen=True, slots=True)
class OnlyThere(Reply):
    """An event that only its calendar can move to ``day`` and the time said, or cancel when all of these are None."""

    occurrence: Occurrence
    calendar: str
    day: date | None = None
    start: time | None = None
    end: time | None = None
