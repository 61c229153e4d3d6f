"""The exported calendar, read by other people's code: icalendar and recurring-ical-events."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo

import icalendar
import pytest
import recurring_ical_events
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.exporting.calendar import as_calendar
from bot.exporting.calendar_lines import content, quoted
from bot.exporting.calendar_zones import zone_lines
from bot.rules.local_time import instant_of
from bot.rules.occurrences import occurrences
from storage.records import Category, Commitment, Stint

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
BRUSSELS, NEW_YORK, LORD_HOWE = "Europe/Brussels", "America/New_York", "Australia/Lord_Howe"
CATEGORIES = (Category(1, "workshop", "work", colour="teal"), Category(2, "Café, küche; <x>", "personal", colour="plum"))
FIRST, LAST = date(2026, 1, 1), date(2027, 12, 31)

Time = tuple[str, datetime, datetime]


def commitment(
    rule: str | None, starts: str = "2026-03-02 09:00", minutes: int = 240, zone: str = BRUSSELS, all_day: bool = False, **more: object
) -> Commitment:
    """One that starts at that local time."""
    at = datetime.fromisoformat(starts)
    opens = instant_of(at.date(), at.time(), zone)
    wall_end = at + timedelta(minutes=minutes)
    ends = instant_of(wall_end.date(), wall_end.time(), zone)
    return Commitment(7, "shift", opens, ends, zone, 1, rule, all_day=all_day, **more)  # type: ignore[arg-type]


def ours(*commitments: Commitment) -> list[Time]:
    return sorted((each.title, each.starts, each.ends) for each in occurrences(commitments, FIRST, LAST))


def theirs(exported: bytes, zone: str = BRUSSELS) -> list[Time]:
    """The times that recurring-ical-events finds; those of whole days from midnight on the clocks of ``zone``."""
    calendar = read(exported)
    found = recurring_ical_events.of(calendar).between(FIRST - timedelta(days=1), LAST + timedelta(days=2))
    times = sorted((str(each["SUMMARY"]), _utc(each["DTSTART"].dt, zone), _utc(each["DTEND"].dt, zone)) for each in found)
    return [each for each in times if FIRST <= each[1].astimezone(ZoneInfo(zone)).date() <= LAST]


def _utc(at: date, zone: str) -> datetime:
    return at.astimezone(UTC) if isinstance(at, datetime) else instant_of(at, time.min, zone)


def read(exported: bytes | str) -> Any:
    """The calendar as icalendar reads it."""
    return icalendar.Calendar.from_ical(exported)


def exported(*commitments: Commitment, stints: tuple[Stint, ...] = ()) -> bytes:
    return as_calendar(commitments, stints, CATEGORIES, 1, NOW)


@pytest.mark.parametrize(
    "one",
    [
        commitment(None),
        commitment(None, except_days=(date(2026, 3, 2),)),
        commitment("FREQ=DAILY"),
        commitment("FREQ=WEEKLY;BYDAY=MO,TH"),
        commitment("FREQ=WEEKLY;INTERVAL=2;BYDAY=TU"),
        commitment("FREQ=WEEKLY;INTERVAL=2;BYDAY=SU;WKST=SU", "2026-03-03 18:00"),
        commitment("FREQ=MONTHLY;BYDAY=-1FR", "2026-03-27 19:30", 90),
        commitment("FREQ=MONTHLY;BYMONTHDAY=31", "2026-01-31 10:00"),
        commitment("FREQ=YEARLY", "2024-02-29 10:00"),
        commitment("FREQ=WEEKLY;BYDAY=TU;COUNT=6"),
        commitment("FREQ=DAILY;UNTIL=20260410"),
        commitment("FREQ=DAILY;UNTIL=20260410T090000"),
        commitment("FREQ=DAILY;UNTIL=20260410T070000Z"),
        commitment("FREQ=WEEKLY", except_days=(date(2026, 3, 9), date(2026, 3, 30), date(2026, 3, 31))),
        commitment("FREQ=WEEKLY", except_days=(date(2026, 3, 2),)),
        commitment("FREQ=DAILY;COUNT=9", "2026-10-23 01:00", 30, NEW_YORK),
        commitment("FREQ=DAILY", "2026-03-27 02:30", 120),
        commitment("FREQ=DAILY", "2026-10-23 02:30", 120),
        commitment("FREQ=DAILY", "2026-03-27 22:00", 8 * 60),
        commitment("FREQ=DAILY", "2026-10-23 22:00", 8 * 60),
        commitment("FREQ=DAILY", "2026-03-27 01:45", 60, LORD_HOWE),
        commitment("FREQ=WEEKLY;BYDAY=SA", "2026-03-02 00:00", 24 * 60, all_day=True),
        commitment("FREQ=DAILY;UNTIL=20260410", "2026-03-02 00:00", 48 * 60, all_day=True),
        commitment("FREQ=WEEKLY", "2026-03-02 00:00", 24 * 60, all_day=True, except_days=(date(2026, 3, 16),)),
        commitment("FREQ=MONTHLY;BYMONTHDAY=30;BYMONTH=2"),
        commitment("FREQ=WEEKLY", cancelled=True),
    ],
    ids=lambda one: f"{one.rule} {one.starts:%m-%d %H:%M}",
)
def test_other_calendars_find_the_same_times(one: Commitment) -> None:
    assert theirs(exported(one), one.zone) == ours(one)


def test_the_night_of_the_clock_change_ends_at_six_there_too() -> None:
    nights = [
        each for each in theirs(exported(commitment("FREQ=DAILY", "2026-03-27 22:00", 8 * 60))) if each[1].date() == date(2026, 3, 28)
    ]

    assert [ends - starts for _, starts, ends in nights] == [timedelta(hours=7)]


def test_an_hour_that_the_clocks_leave_out_is_the_one_difference_they_have_none_of_it() -> None:
    hour = commitment("FREQ=DAILY", "2026-03-27 02:30", 60)
    different = set(theirs(exported(hour))) ^ set(ours(hour))

    # Two nights of spring, each found by both from 03:30 on: here for an hour, there for no time.
    assert {(starts, ends - starts) for _, starts, ends in different} == {
        (datetime(year, 3, day, 1, 30, tzinfo=UTC), timedelta(hours=hours)) for year, day in ((2026, 29), (2027, 28)) for hours in (0, 1)
    }


rules = st.one_of(
    st.builds("FREQ=DAILY;INTERVAL={}".format, st.integers(1, 5)),
    st.builds(
        "FREQ=WEEKLY;INTERVAL={};BYDAY={}".format,
        st.integers(1, 4),
        st.lists(st.sampled_from(("MO", "TU", "WE", "TH", "FR", "SA", "SU")), min_size=1, max_size=4, unique=True).map(",".join),
    ),
    st.builds("FREQ=MONTHLY;BYDAY={}{}".format, st.sampled_from((1, 2, 3, 4, 5, -1)), st.sampled_from(("MO", "WE", "FR", "SU"))),
    st.builds("FREQ=MONTHLY;BYMONTHDAY={}".format, st.integers(1, 31)),
)
ends_of_rules = st.sampled_from(("", ";COUNT=1", ";COUNT=9", ";UNTIL=20260901", ";UNTIL=20260901T120000Z"))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    rules,
    ends_of_rules,
    st.datetimes(datetime(2025, 11, 1), datetime(2026, 12, 1)).map(lambda at: f"{at:%Y-%m-%d %H:%M}"),
    st.integers(61, 600),
    st.sampled_from((BRUSSELS, NEW_YORK, "Asia/Kolkata")),
    st.lists(st.dates(FIRST, date(2026, 12, 31)), max_size=4, unique=True).map(tuple),
)
def test_whatever_recurs_is_found_at_the_same_times(
    rule: str, end: str, starts: str, minutes: int, zone: str, days: tuple[date, ...]
) -> None:
    one = commitment(rule + end, starts, minutes, zone, except_days=days)

    assert theirs(exported(one), zone) == ours(one)


def test_hours_spent_are_there_with_what_was_said_of_them() -> None:
    starts = datetime(2026, 3, 2, 8, tzinfo=UTC)
    stints = (
        Stint(1, 1, date(2026, 3, 2), 210, starts, starts + timedelta(hours=4), 30, note="new spokes; “Ø 2 mm”,\nand oil"),
        Stint(2, 2, date(2026, 3, 3), 45),
    )
    timed, loose = read(exported(stints=stints)).walk("VEVENT")

    assert (timed["SUMMARY"], timed["DTSTART"].dt, timed["DTEND"].dt) == ("Workshop, 3 h 30", starts, starts + timedelta(hours=4))
    assert timed["DESCRIPTION"] == "new spokes; “Ø 2 mm”,\nand oil\nBreak: 30 min"
    assert (loose["SUMMARY"], loose["DTSTART"].dt) == ("Café, küche; <x>, 45 min", date(2026, 3, 3))
    assert loose["CATEGORIES"].cats == ["Café, küche; <x>"]


def test_every_line_is_short_ends_with_both_and_cuts_no_letter() -> None:
    title = "Щётки и цепи; " * 12
    lines = exported(Commitment(1, title, NOW, NOW + timedelta(hours=1), BRUSSELS)).split(b"\r\n")

    # Source: RFC 5545, section 3.1: lines of at most 75 octets, ended with CRLF.
    assert max(map(len, lines)) <= 75
    assert lines[-1] == b""
    assert all(line.decode() for line in lines[:-1])
    assert not any(b"\n" in line or b"\r" in line for line in lines)


@given(st.text(max_size=300))
def test_any_text_reads_back_without_what_no_calendar_may_hold(text: str) -> None:
    title = "".join(letter for letter in text if letter.isprintable() or letter in "\n\t") or "x"
    (event,) = read(exported(Commitment(1, title, NOW, NOW + timedelta(hours=1), BRUSSELS))).walk("VEVENT")

    assert event["SUMMARY"] == title


def test_nothing_said_can_become_a_line_of_its_own() -> None:
    assert quoted("x\r\nEND:VCALENDAR\x00") == "x\\nEND:VCALENDAR"
    assert content(["SUMMARY:" + quoted("a\rb")]) == b"SUMMARY:a\\nb\r\n"


@pytest.mark.parametrize("zone", [BRUSSELS, NEW_YORK, LORD_HOWE, "Asia/Kolkata", "Africa/Casablanca", "America/Nuuk"])
def test_a_zone_is_told_as_the_tz_database_has_it(zone: str) -> None:
    text = "BEGIN:VCALENDAR\r\n" + "\r\n".join(zone_lines(zone, NOW, NOW)) + "\r\nEND:VCALENDAR\r\n"
    (told,) = read(text).walk("VTIMEZONE")
    onsets: list[tuple[datetime, timedelta]] = []
    for part in told.subcomponents:
        dates = [part["DTSTART"].dt, *([each.dt for each in part["RDATE"].dts] if "RDATE" in part else [])]
        onsets += [((at.replace(tzinfo=UTC) - part["TZOFFSETFROM"].td), part["TZOFFSETTO"].td) for at in dates]

    for (since, offset), (until, _) in pairwise([*sorted(onsets), (datetime(2046, 1, 1, tzinfo=UTC), timedelta(0))]):
        for at in (since, since + (until - since) / 2, until - timedelta(seconds=1)):
            assert at.astimezone(ZoneInfo(zone)).utcoffset() == offset
