"""Zones that a calendar describes itself, beside the tz database and what they say of their own changes."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.outside.calendars.limits import LIMITS, Allowance
from bot.outside.calendars.lines import CalendarFile
from bot.outside.calendars.zones import DescribedZone, Zones, named_zone
from tests.outside.calendars_made import at, calendar, read

OPENS, CLOSES = datetime(2024, 1, 1), datetime(2028, 1, 1)

# The rules by which clocks have changed in the European Union since 1996 (Directive 2000/84/EC),
# in New York since 2007 (Energy Policy Act of 2005), and on Lord Howe Island since 2008, as half-hours.
BRUSSELS = (
    "BEGIN:DAYLIGHT|DTSTART:19960331T020000|RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU|TZOFFSETFROM:+0100|TZOFFSETTO:+0200|END:DAYLIGHT"
    "|BEGIN:STANDARD|DTSTART:19961027T030000|RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU|TZOFFSETFROM:+0200|TZOFFSETTO:+0100|END:STANDARD"
)
NEW_YORK = (
    "BEGIN:DAYLIGHT|DTSTART:20070311T020000|RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU|TZOFFSETFROM:-0500|TZOFFSETTO:-0400|END:DAYLIGHT"
    "|BEGIN:STANDARD|DTSTART:20071104T020000|RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU|TZOFFSETFROM:-0400|TZOFFSETTO:-0500|END:STANDARD"
)
LORD_HOWE = (
    "BEGIN:DAYLIGHT|DTSTART:20081005T020000|RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=1SU|TZOFFSETFROM:+1030|TZOFFSETTO:+1100|END:DAYLIGHT"
    "|BEGIN:STANDARD|DTSTART:20080406T020000|RRULE:FREQ=YEARLY;BYMONTH=4;BYDAY=1SU|TZOFFSETFROM:+1100|TZOFFSETTO:+1030|END:STANDARD"
)
DESCRIBED = [("Europe/Brussels", BRUSSELS), ("America/New_York", NEW_YORK), ("Australia/Lord_Howe", LORD_HOWE)]


def with_zone(parts: str, *events: str, name: str = "Mine") -> bytes:
    """A calendar of events that describes a zone."""
    zone = "\r\n".join(["BEGIN:VTIMEZONE", f"TZID:{name}", *parts.split("|"), "END:VTIMEZONE", ""])
    return calendar(*events).replace(b"VERSION:2.0\r\n", zone.encode())


def described(parts: str, name: str = "Mine") -> DescribedZone | None:
    """The zone as it is read."""
    (file,) = CalendarFile(with_zone(parts, name=name), LIMITS).calendars
    zone = Zones(file.named("VTIMEZONE"), OPENS, CLOSES, LIMITS, Allowance(LIMITS.most_steps)).find(name)
    assert zone is None or isinstance(zone, DescribedZone)
    return zone


@given(st.sampled_from(DESCRIBED), st.datetimes(OPENS, CLOSES), st.integers(0, 1))
def test_a_described_zone_shows_the_time_that_the_tz_database_does(zone: tuple[str, str], at: datetime, fold: int) -> None:
    ours, theirs = described(zone[1]), ZoneInfo(zone[0])
    assert ours is not None
    assert at.replace(tzinfo=UTC).astimezone(ours).replace(tzinfo=None) == at.replace(tzinfo=UTC).astimezone(theirs).replace(tzinfo=None)
    wall = at.replace(fold=fold)
    assert wall.replace(tzinfo=ours).utcoffset() == wall.replace(tzinfo=theirs).utcoffset()


@pytest.mark.parametrize("zone", DESCRIBED, ids=[name for name, _ in DESCRIBED])
def test_every_minute_around_a_change_agrees(zone: tuple[str, str]) -> None:
    ours, theirs = described(zone[1]), ZoneInfo(zone[0])
    assert ours is not None
    changes = [at for day in range(366) if _changes(theirs, at := datetime(2026, 1, 1, tzinfo=UTC) + timedelta(days=day))]
    assert len(changes) == 2
    for start in changes:
        for minute in range(0, 48 * 60, 5):
            there, here = ((start + timedelta(minutes=minute)).astimezone(each) for each in (theirs, ours))
            assert (here.replace(tzinfo=None), here.fold) == (there.replace(tzinfo=None), there.fold)


def _changes(zone: ZoneInfo, day: datetime) -> bool:
    return day.astimezone(zone).utcoffset() != (day + timedelta(days=1)).astimezone(zone).utcoffset()


def test_events_follow_the_zone_that_their_calendar_describes() -> None:
    events = read(with_zone(NEW_YORK, "DTSTART;TZID=Mine:20260303T090000|RRULE:FREQ=WEEKLY;COUNT=2")).events
    assert [event.starts for event in events] == [at("2026-03-03 14:00"), at("2026-03-10 13:00")]


def test_a_description_may_come_after_the_events() -> None:
    content = with_zone(NEW_YORK, "DTSTART;TZID=Mine:20260303T090000")
    zone = content[content.index(b"BEGIN:VTIMEZONE") : content.index(b"BEGIN:VEVENT")]
    moved = content.replace(zone, b"").replace(b"END:VCALENDAR", zone + b"END:VCALENDAR")
    assert read(moved).events[0].starts == at("2026-03-03 14:00")


def test_two_calendars_may_give_one_name_to_two_zones() -> None:
    there = read(with_zone(NEW_YORK, "DTSTART;TZID=Mine:20260303T090000")).events[0]
    here = read(with_zone(BRUSSELS, "DTSTART;TZID=Mine:20260303T090000")).events[0]
    assert (there.starts, here.starts) == (at("2026-03-03 14:00"), at("2026-03-03 08:00"))


def test_the_tz_database_goes_before_a_description_of_the_same_name() -> None:
    event = read(with_zone(NEW_YORK, "DTSTART;TZID=Europe/Brussels:20260303T090000", name="Europe/Brussels")).events[0]
    assert event.starts == at("2026-03-03 08:00")


def test_a_zone_whose_rules_have_ended_stays_at_its_last_change() -> None:
    # It went to summer time for good on 25 March 2012, after its winter time had started later in the file.
    parts = (
        "BEGIN:DAYLIGHT|DTSTART:20080330T020000|RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU;UNTIL=20120325T010000Z"
        "|TZOFFSETFROM:+0100|TZOFFSETTO:+0200|END:DAYLIGHT"
        "|BEGIN:STANDARD|DTSTART:20081026T030000|RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU;UNTIL=20111030T010000Z"
        "|TZOFFSETFROM:+0200|TZOFFSETTO:+0100|END:STANDARD"
    )
    assert read(with_zone(parts, "DTSTART;TZID=Mine:20260303T090000")).events[0].starts == at("2026-03-03 07:00")


def test_changes_may_be_given_by_date() -> None:
    parts = (
        "BEGIN:DAYLIGHT|DTSTART:20000101T000000|RDATE:20240101T000000,20260302T000000|TZOFFSETFROM:+0100|TZOFFSETTO:+0300|END:DAYLIGHT"
        "|BEGIN:STANDARD|DTSTART:20010101T000000|RDATE:20250101T000000,20260401T000000|TZOFFSETFROM:+0300|TZOFFSETTO:+0100|END:STANDARD"
    )
    assert read(with_zone(parts, "DTSTART;TZID=Mine:20260303T090000")).events[0].starts == at("2026-03-03 06:00")


def test_before_its_first_change_a_zone_has_the_offset_from_which_it_changed() -> None:
    parts = "BEGIN:STANDARD|DTSTART:20260304T000000|TZOFFSETFROM:+0530|TZOFFSETTO:+0300|END:STANDARD"
    assert read(with_zone(parts, "DTSTART;TZID=Mine:20260303T090000")).events[0].starts == at("2026-03-03 03:30")


@pytest.mark.parametrize(
    "parts",
    [
        "X-NOTHING:1",
        "BEGIN:STANDARD|END:STANDARD",
        "BEGIN:STANDARD|DTSTART:19700101T000000|TZOFFSETFROM:+0100|END:STANDARD",
        "BEGIN:STANDARD|DTSTART:19700101T000000|TZOFFSETFROM:+0100|TZOFFSETTO:+2500|END:STANDARD",
        "BEGIN:STANDARD|DTSTART:19700101T000000|TZOFFSETFROM:one|TZOFFSETTO:+0100|END:STANDARD",
        "BEGIN:STANDARD|DTSTART:long ago|TZOFFSETFROM:+0100|TZOFFSETTO:+0100|END:STANDARD",
        "BEGIN:STANDARD|DTSTART:19700101T000000|RRULE:FREQ=SOMETIMES|TZOFFSETFROM:+0100|TZOFFSETTO:+0100|END:STANDARD",
        "BEGIN:STANDARD|DTSTART:19700101T000000|RRULE:FREQ=DAILY|TZOFFSETFROM:+0100|TZOFFSETTO:+0200|END:STANDARD",
    ],
)
def test_a_description_that_cannot_be_followed_is_as_good_as_none(parts: str) -> None:
    assert described(parts) is None


def test_a_zone_without_a_name_is_not_taken_for_any() -> None:
    content = with_zone(NEW_YORK, "DTSTART;TZID=Mine:20260303T090000").replace(b"TZID:Mine", b"TZID;broken")
    assert read(content).events[0].starts == at("2026-03-03 08:00")


def test_a_described_zone_knows_its_name_and_its_latest_offset() -> None:
    zone = described(NEW_YORK)
    assert zone is not None
    assert (zone.tzname(None), zone.utcoffset(None)) == ("Mine", timedelta(hours=-5))


@pytest.mark.parametrize("name", ["", "Europe", "/", "..", "../../secret", "Europe/", "\x00", "x" * 10_000, "Ünknown"])
def test_a_name_that_is_no_zone_is_none(name: str) -> None:
    assert named_zone(name) is None


def test_only_so_many_names_are_looked_for() -> None:
    zones = Zones([], OPENS, CLOSES, LIMITS, Allowance(1))
    for number in range(LIMITS.most_zones):
        zones.find(f"Nowhere/{number}")
    assert zones.find("Europe/Brussels") is None
