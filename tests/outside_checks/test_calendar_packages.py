"""The calendars that come with icalendar and recurring-ical-events, which are read there by other people's code.

Both are what calendars are compared with here, not what they are read with:
see the folder of the source.
"""

from __future__ import annotations

import warnings
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from importlib.resources import files
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bot.outside.calendars.limits import Limits
from bot.outside.calendars.reading import read_calendar
from bot.outside.faults import CalendarUnavailable, Fault
from bot.rules.calendar_events import CalendarEvent
from tests.outside_checks.calendar_package_times import BERLIN, EXPECTED

FIRST_DAY, LAST_DAY = date(2018, 1, 1), date(2025, 12, 31)
PLENTY = Limits(most_instances_a_series=10_000, most_instances=100_000)

# Where we differ on purpose, and by how many times that only one of the two has (ours, theirs).
DIFFERENT = {
    # Events of whole days whose end is their own day: the RFC wants a later end, so that they take a day here and no time there.
    "Germany_Holidays.ics": (34, 34),
    "example.ics": (3, 3),
    # UNTIL is a day although the event has a time: all of that day here, up to its first moment there. The RFC forbids it.
    "issue_75_range_parameter.ics": (1, 0),
}


def calendars_of(package: str) -> list[Path]:
    """Every calendar that comes with an installed package."""
    return sorted(Path(str(files(package))).rglob("*.ics"))


def as_text(event: CalendarEvent, zone: str) -> str:
    """The times of an event as they are written above."""
    starts, ends = (each.astimezone(ZoneInfo(zone)) for each in (event.starts, event.ends))
    if event.all_day:
        return f"{starts:%Y-%m-%d}"
    return f"{starts:%Y-%m-%d %H:%M} to " + (f"{ends:%H:%M}" if starts.date() == ends.date() else f"{ends:%Y-%m-%d %H:%M}")


@pytest.mark.parametrize(("name", "first_day", "last_day", "zone", "expected"), EXPECTED, ids=[row[0] for row in EXPECTED])
def test_the_times_are_those_that_recurring_ical_events_gave(name: str, first_day: str, last_day: str, zone: str, expected: str) -> None:
    content = (Path(str(files("recurring_ical_events"))) / "test" / "calendars" / name).read_bytes()
    read = read_calendar(content, zone, date.fromisoformat(first_day), date.fromisoformat(last_day))
    assert sorted(as_text(event, zone) for event in read.events) == sorted(line.strip() for line in expected.split("\n") if line.strip())
    assert (read.unreadable, read.cut_short) == (0, False)


@pytest.mark.parametrize("package", ["icalendar", "recurring_ical_events"])
def test_every_calendar_is_read_or_refused_as_none(package: str) -> None:
    paths = calendars_of(package)
    faults = {path: _fault(path) for path in paths}
    refused = [path for path, fault in faults.items() if fault is not None]
    assert len(paths) > 90
    assert len(refused) < len(paths) / 5
    assert all(faults[path] is Fault.NOT_A_CALENDAR and b"BEGIN:VEVENT" not in path.read_bytes() for path in refused)


def _fault(path: Path) -> Fault | None:
    """Why a file could not be read, or None if it could."""
    try:
        read_calendar(path.read_bytes(), BERLIN, FIRST_DAY, LAST_DAY)
    except CalendarUnavailable as refusal:
        return refusal.fault
    return None


def test_wherever_recurring_ical_events_finds_times_ours_are_the_same() -> None:
    compared, different = 0, {}
    for path in calendars_of("icalendar") + calendars_of("recurring_ical_events"):
        theirs = _their_times(path)
        if theirs is None:
            continue
        ours = Counter(_our_times(path))
        compared += len(theirs)
        if ours != Counter(theirs):
            different[path.name] = ((ours - Counter(theirs)).total(), (Counter(theirs) - ours).total())
    assert different == DIFFERENT
    assert compared > 5_000


def _our_times(path: Path) -> Iterator[tuple[datetime, datetime]]:
    # Their window ends on the first instant of a day, ours with the last of the day before.
    read = read_calendar(path.read_bytes(), BERLIN, FIRST_DAY, LAST_DAY, PLENTY)
    return ((event.starts, event.ends) for event in read.events)


def _their_times(path: Path) -> list[tuple[datetime, datetime]] | None:
    """The times that the two packages find, or None where they give up or find none."""
    import icalendar
    import recurring_ical_events

    bounds = (datetime.combine(day, datetime.min.time(), ZoneInfo(BERLIN)) for day in (FIRST_DAY, LAST_DAY + timedelta(days=1)))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            found = recurring_ical_events.of(icalendar.Calendar.from_ical(path.read_bytes())).between(*bounds)
        except (ValueError, TypeError, AttributeError, KeyError):
            return None
        return [(_instant(event["DTSTART"].dt), _instant(event["DTEND"].dt)) for event in found] or None


def _instant(at: date) -> datetime:
    """The UTC instant of a day or time as icalendar gives it; without a zone it is on the clocks of Berlin."""
    at = at if isinstance(at, datetime) else datetime(at.year, at.month, at.day)
    return (at if at.tzinfo else at.replace(tzinfo=ZoneInfo(BERLIN))).astimezone(UTC)
