"""Calendars of others, as far as they are kept."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Calendar:
    """A calendar the person sent as a file or, where there is a ``link``, subscribed to. A ``paused`` one is not asked for."""

    id: int
    name: str
    link: str | None = None
    paused: bool = False


@dataclass(frozen=True, slots=True)
class KeptEvent:
    """One time of an event of a calendar: ``uid`` and ``recurrence`` name it for good.

    Instants are UTC. One that is not ``busy`` blocks no hours, one that is ``cancelled`` does not take place.
    """

    id: int
    calendar_id: int
    uid: str
    recurrence: str
    title: str
    starts: datetime
    ends: datetime
    all_day: bool = False
    busy: bool = True
    cancelled: bool = False
    place: str = ""


@dataclass(frozen=True, slots=True)
class Marking:
    """What the person said of all events whose title holds ``words``; None where nothing was said."""

    id: int
    words: str
    category_id: int | None = None
    minor: bool | None = None
    outdoors: bool | None = None
    minutes_before: int | None = None
    minutes_after: int | None = None


@dataclass(frozen=True, slots=True)
class Visit:
    """The latest reading of a calendar by its link: when, up to which local day, and what its server calls that version."""

    at: datetime
    reaches: date
    etag: str | None = None
    last_modified: str | None = None
