"""Calendars, read: clocks, whole days, names that last, and what cannot be read."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.outside.calendars.reading import read_calendar
from bot.outside.faults import CalendarUnavailable, Fault
from bot.rules.calendar_events import EventKey
from tests.outside.calendars_made import BRUSSELS, NEW_YORK, WEEKLY, at, calendar, events_of, read


def test_an_event_says_what_when_and_where() -> None:
    lines = r"UID:dentist|SUMMARY:Dentist\, second visit|LOCATION:Canal Street 4\nGhent|DTSTART:20260303T090000Z|DTEND:20260303T094500Z"
    (event,) = events_of(lines)
    assert (event.key, event.title, event.place) == (EventKey("dentist", ""), "Dentist, second visit", "Canal Street 4 Ghent")
    assert (event.starts, event.ends) == (at("2026-03-03 09:00"), at("2026-03-03 09:45"))
    assert (event.all_day, event.busy, event.cancelled) == (False, True, False)


@pytest.mark.parametrize(
    ("start", "expected"),
    [
        ("DTSTART:20260303T090000Z", "2026-03-03 09:00"),
        ("DTSTART;TZID=America/New_York:20260303T090000", "2026-03-03 14:00"),
        ('DTSTART;TZID="America/New_York":20260303T090000', "2026-03-03 14:00"),
        ("dtstart;tzid=America/New_York:20260303t090000", "2026-03-03 14:00"),
        # On no clock in particular: on the person's.
        ("DTSTART:20260303T090000", "2026-03-03 08:00"),
        # A zone that nobody knows is as good as none.
        ("DTSTART;TZID=Nowhere/At_All:20260303T090000", "2026-03-03 08:00"),
        # Named as Windows does, and with a program's name before it.
        ("DTSTART;TZID=Eastern Standard Time:20260303T090000", "2026-03-03 14:00"),
        ("DTSTART;TZID=/example.org/20260101/America/New_York:20260303T090000", "2026-03-03 14:00"),
    ],
)
def test_a_time_is_on_the_clock_that_it_names(start: str, expected: str) -> None:
    assert events_of(start)[0].starts == at(expected)


def test_a_calendar_may_name_one_zone_for_all_its_times() -> None:
    # The clocks of New York change on 8 March 2026; nine o'clock there stays nine o'clock, although it is written in UTC.
    events = events_of(
        "DTSTART:20260303T140000Z|RRULE:FREQ=WEEKLY;COUNT=2", "DTSTART:20260304T090000", header="X-WR-TIMEZONE:America/New_York"
    )
    assert [event.starts for event in events] == [at("2026-03-03 14:00"), at("2026-03-04 14:00"), at("2026-03-10 13:00")]


def test_a_series_keeps_to_its_own_clock_when_it_changes() -> None:
    events = events_of(WEEKLY)
    assert [event.starts for event in events] == [
        *(at(f"2026-03-{day:02} 12:00") for day in (3, 10, 17, 24)),
        at("2026-03-31 11:00"),
    ]
    assert {event.ends - event.starts for event in events} == {timedelta(hours=4)}


def test_a_night_shift_ends_at_six_also_when_the_clock_changes() -> None:
    (event,) = events_of("DTSTART;TZID=Europe/Brussels:20260328T220000|DTEND;TZID=Europe/Brussels:20260329T060000")
    assert (event.starts, event.ends) == (at("2026-03-28 21:00"), at("2026-03-29 04:00"))


def test_a_journey_ends_on_another_clock_than_it_starts() -> None:
    (event,) = events_of("DTSTART;TZID=Europe/Brussels:20260303T100000|DTEND;TZID=America/New_York:20260303T120000")
    assert event.ends - event.starts == timedelta(hours=8)


def test_whole_days_are_those_of_the_person() -> None:
    lines = "DTSTART;VALUE=DATE:20260309|DTEND;VALUE=DATE:20260312"
    for zone, starts, ends in [(BRUSSELS, "2026-03-08 23:00", "2026-03-11 23:00"), (NEW_YORK, "2026-03-09 04:00", "2026-03-12 04:00")]:
        (event,) = events_of(lines, zone=zone)
        assert (event.all_day, event.starts, event.ends) == (True, at(starts), at(ends))


def test_a_day_without_midnight_starts_when_it_starts() -> None:
    # Cairo's clocks go from 23:59:59 on 23 April 2026 to 01:00 (tzdata 2026).
    read_there = read_calendar(calendar("DTSTART;VALUE=DATE:20260424"), "Africa/Cairo", date(2026, 4, 1), date(2026, 4, 30))
    assert (read_there.events[0].starts, read_there.events[0].ends) == (at("2026-04-23 22:00"), at("2026-04-24 21:00"))


@pytest.mark.parametrize(
    ("lines", "minutes"),
    [
        ("DURATION:PT1H30M", 90),
        ("DURATION:P1DT2H", 26 * 60),
        ("DURATION:P1W", 7 * 24 * 60),
        ("DTEND:20260303T090000Z", 0),
        ("", 0),
    ],
)
def test_an_event_lasts_as_long_as_it_says(lines: str, minutes: int) -> None:
    (event,) = events_of(f"DTSTART:20260303T090000Z|{lines}")
    assert event.ends - event.starts == timedelta(minutes=minutes)


@pytest.mark.parametrize("lines", ["DTSTART:20260303T100000Z|DTEND:20260303T090000Z", "DTSTART:20260303T100000Z|DURATION:-PT1H"])
def test_start_and_end_that_were_swapped_are_swapped_back(lines: str) -> None:
    (event,) = events_of(lines)
    assert (event.starts, event.ends) == (at("2026-03-03 09:00"), at("2026-03-03 10:00"))


def test_from_a_day_to_a_time_is_from_its_midnight() -> None:
    (event,) = events_of("DTSTART;VALUE=DATE:20260303|DTEND;TZID=Europe/Brussels:20260303T100000")
    assert (event.starts, event.ends, event.all_day) == (at("2026-03-02 23:00"), at("2026-03-03 09:00"), False)
    (event,) = events_of("DTSTART;VALUE=DATE:20260303|DURATION:PT90M")
    assert (event.starts, event.ends, event.all_day) == (at("2026-03-02 23:00"), at("2026-03-03 00:30"), False)


def test_only_the_days_that_are_asked_for_are_told_of() -> None:
    events = events_of(
        "SUMMARY:before|DTSTART;TZID=Europe/Brussels:20260228T220000|DURATION:PT2H",
        "SUMMARY:into|DTSTART;TZID=Europe/Brussels:20260228T220000|DURATION:PT3H",
        "SUMMARY:first moment|DTSTART;TZID=Europe/Brussels:20260301T000000",
        "SUMMARY:last moment|DTSTART;TZID=Europe/Brussels:20260331T235959",
        "SUMMARY:after|DTSTART;TZID=Europe/Brussels:20260401T000000",
        "SUMMARY:all along|DTSTART;VALUE=DATE:20250101|DTEND;VALUE=DATE:20270101",
    )
    assert {event.title for event in events} == {"into", "first moment", "last moment", "all along"}


def test_a_series_that_started_long_ago_and_lasts_days_reaches_into_the_month() -> None:
    events = events_of("DTSTART;VALUE=DATE:19990226|DTEND;VALUE=DATE:19990304|RRULE:FREQ=YEARLY")
    assert [(event.recurrence, event.ends) for event in events] == [("20260226", at("2026-03-03 23:00"))]


# Names.


def test_an_event_without_a_uid_is_named_alike_each_time() -> None:
    content = calendar("UID:|SUMMARY:Dentist|DTSTART:20260303T090000Z", "UID:|SUMMARY:Plumber|DTSTART:20260303T090000Z")
    first, second = read(content), read(content)
    assert [event.key for event in first.events] == [event.key for event in second.events]
    assert len({event.uid for event in first.events}) == 2


def test_the_same_event_twice_in_a_file_is_one() -> None:
    assert len(events_of(WEEKLY, WEEKLY)) == 5


def test_a_calendar_has_the_name_it_gives_itself() -> None:
    assert read(calendar(header=r"X-WR-CALNAME:Museum\, front desk")).name == "Museum, front desk"
    assert read(calendar(header="NAME:Museum")).name == "Museum"
    assert read(calendar()).name == ""


def test_events_that_do_not_block_are_told_apart() -> None:
    assert [event.busy for event in events_of("DTSTART:20260303T090000Z|TRANSP:TRANSPARENT")] == [False]


# What cannot be read.


@pytest.mark.parametrize(
    "lines",
    [
        "SUMMARY:never",
        "DTSTART:",
        "DTSTART:tomorrow",
        "DTSTART:20260231T090000Z",
        "DTSTART:00010101T000000Z",
        "DTSTART:99991231T235959Z",
        "DTSTART;TZID:20260303T090000",
        "DTSTART:20260303T090000Z|DTEND:later",
        "DTSTART:20260303T090000Z|DTEND:29990303T090000Z",
        "DTSTART:20260303T090000Z|DURATION:P",
        "DTSTART:20260303T090000Z|DURATION:P99999W",
        "DTSTART:20260303T090000Z|DURATION:PT999999999H",
        "DTSTART:20260303T090000Z|RRULE:FREQ=SOMETIMES",
        "DTSTART:20260303T090000Z|RDATE:sometime",
        "DTSTART:20260303T090000Z|EXDATE:sometime",
        "DTSTART:20260303T090000Z|RDATE;VALUE=PERIOD:20260305T090000Z/20260304T090000Z",
        "DTSTART:20260303T090000Z|RDATE;VALUE=PERIOD:20260305/20260305T090000Z",
        "DTSTART:20260303T090000Z|RECURRENCE-ID:sometime",
        "DTSTART:20260303T090000Z|RECURRENCE-ID:17000303T090000Z",
    ],
)
def test_an_event_that_cannot_be_read_is_counted_and_the_others_are_kept(lines: str) -> None:
    found = read(calendar(WEEKLY, lines, "DTSTART:20260303T090000Z"))
    assert (len(found.events), found.unreadable, found.cut_short) == (6, 1, False)


@pytest.mark.parametrize("content", [b"", b"Hello", b"<html>", b"BEGIN:VCARD\nEND:VCARD\n", b"\xff\xfe", b"\x00" * 100])
def test_what_is_no_calendar_is_refused(content: bytes) -> None:
    with pytest.raises(CalendarUnavailable) as caught:
        read(content)
    assert caught.value.fault is Fault.NOT_A_CALENDAR


SOME_LINES = calendar(WEEKLY, "DTSTART;VALUE=DATE:20260303|EXDATE:20260310T120000Z").split(b"\r\n")


@given(st.binary(max_size=300) | st.lists(st.sampled_from(SOME_LINES), max_size=60).map(b"\n".join))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    try:
        found = read(content)
    except CalendarUnavailable:
        return
    assert all(event.starts <= event.ends for event in found.events)


@given(st.integers(min_value=0), st.integers(0, 255))
def test_one_wrong_byte_spoils_one_event_at_most(place: int, byte: int) -> None:
    content = calendar("UID:2|DTSTART:20260303T090000Z", "UID:3|DTSTART:20260304T090000Z", WEEKLY)
    last = content.rindex(b"BEGIN:VEVENT")
    broken = bytearray(content)
    broken[last + place % (len(content) - last)] = byte
    found = read(bytes(broken))
    assert {"2", "3"} <= {event.uid for event in found.events}
    assert found.unreadable <= 1
