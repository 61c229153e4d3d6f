"""Short ways to make calendars, and to say what is in them."""

from __future__ import annotations

from datetime import UTC, date, datetime

from bot.outside.calendars.limits import LIMITS, Limits
from bot.outside.calendars.reading import read_calendar
from bot.rules.calendar_events import CalendarEvent, ReadCalendar

BRUSSELS = "Europe/Brussels"
NEW_YORK = "America/New_York"
WEEKLY = (
    "UID:shift|SUMMARY:Museum shift|RRULE:FREQ=WEEKLY"
    "|DTSTART;TZID=Europe/Brussels:20260303T130000|DTEND;TZID=Europe/Brussels:20260303T170000"
)
FIRST_DAY, LAST_DAY = date(2026, 3, 1), date(2026, 3, 31)


def calendar(*events: str, header: str = "") -> bytes:
    """A calendar of events whose lines are kept apart by bars, with a UID of their place where they give none."""
    blocks: list[str] = []
    for number, lines in enumerate(events, start=1):
        uid = [] if "UID:" in lines else [f"UID:{number}@example.org"]
        blocks += ["BEGIN:VEVENT", *uid, *lines.split("|"), "END:VEVENT"]
    written = ["BEGIN:VCALENDAR", "VERSION:2.0", *filter(None, header.split("|")), *blocks, "END:VCALENDAR", ""]
    return "\r\n".join(written).encode()


def read(content: bytes, zone: str = BRUSSELS, limits: Limits = LIMITS) -> ReadCalendar:
    """What a calendar says of March 2026."""
    return read_calendar(content, zone, FIRST_DAY, LAST_DAY, limits)


def events_of(*events: str, header: str = "", zone: str = BRUSSELS) -> tuple[CalendarEvent, ...]:
    """The times in March 2026 of events that can all be read."""
    found = read(calendar(*events, header=header), zone)
    assert (found.unreadable, found.cut_short) == (0, False)
    return found.events


def times(lines: str, first_day: date, last_day: date, zone: str = NEW_YORK) -> tuple[CalendarEvent, ...]:
    """The times of one event that can be read, from its lines, for a person in ``zone``."""
    found = read_calendar(calendar(lines), zone, first_day, last_day)
    assert (found.unreadable, found.cut_short) == (0, False)
    return found.events


def at(text: str) -> datetime:
    """An instant in UTC, as ``2026-03-07 14:00``."""
    return datetime.fromisoformat(text).replace(tzinfo=UTC)
