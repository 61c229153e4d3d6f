"""Calendars that ask for too much: the work is bounded, what can be read is kept, and it is said that there was more.

No test here measures time: what is bounded is how much is looked at.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from bot.outside.calendars.limits import LIMITS, Allowance, TooMuchWork
from bot.outside.faults import CalendarUnavailable, Fault
from bot.rules.calendar_events import ReadCalendar
from tests.outside.calendars_made import calendar, read

DENTIST = "UID:dentist|DTSTART:20260303T090000Z"


def kept(found: ReadCalendar) -> set[str]:
    """The names of the events of which something was kept."""
    return {event.uid for event in found.events}


def test_fifty_megabytes_are_refused_unread() -> None:
    with pytest.raises(CalendarUnavailable) as caught:
        read(b"BEGIN:VCALENDAR\n" + b" " * 50_000_000)
    assert caught.value.fault is Fault.TOO_LARGE


def test_of_a_hundred_thousand_events_the_first_are_kept() -> None:
    event = b"BEGIN:VEVENT\nUID:%d\nDTSTART:20260303T090000Z\nEND:VEVENT\n"
    content = b"BEGIN:VCALENDAR\n" + b"".join(event % number for number in range(100_000)) + b"END:VCALENDAR\n"
    found = read(content, limits=replace(LIMITS, most_events=1_000, most_instances=1_000))
    assert (len(found.events), found.unreadable, found.cut_short) == (1_000, 0, True)


def test_more_components_than_are_taken_are_left_alone() -> None:
    content = calendar(DENTIST).replace(b"END:VCALENDAR", b"BEGIN:VEVENT\r\n" * 1_000 + b"END:VCALENDAR")
    found = read(content, limits=replace(LIMITS, most_components=10))
    assert (kept(found), found.unreadable, found.cut_short) == ({"dentist"}, 8, True)


@pytest.mark.parametrize("rule", ["FREQ=SECONDLY", "FREQ=MINUTELY", "FREQ=HOURLY"])
def test_a_rule_without_end_stops_at_its_share_and_leaves_the_others_theirs(rule: str) -> None:
    found = read(
        calendar(f"UID:endless|DTSTART:20260301T000000Z|RRULE:{rule}", DENTIST), limits=replace(LIMITS, most_instances_a_series=100)
    )
    assert kept(found) == {"endless", "dentist"}
    assert (len(found.events), found.cut_short) == (101, True)


def test_rules_that_take_too_many_steps_are_counted_as_unreadable() -> None:
    endless = [f"UID:{number}|DTSTART:19700101T000000Z|RRULE:FREQ=SECONDLY;COUNT=999999999" for number in range(20)]
    found = read(calendar(DENTIST, *endless), limits=replace(LIMITS, most_steps_a_series=1_000, most_steps=10_000))
    assert (kept(found), found.unreadable, found.cut_short) == ({"dentist"}, 20, True)


def test_rules_that_never_come_true_cost_the_others_nothing() -> None:
    never = [f"UID:{number}|DTSTART:19700101T000000Z|RRULE:FREQ=SECONDLY;BYMONTH=2;BYMONTHDAY=30" for number in range(200)]
    found = read(calendar(*never, DENTIST))
    # The start of an event belongs to it even where its rule does not say so, but that was long ago.
    assert (kept(found), found.unreadable, found.cut_short) == ({"dentist"}, 0, False)


def test_all_events_together_have_a_limit_of_their_own() -> None:
    daily = [f"UID:{number}|DTSTART:20260301T000000Z|RRULE:FREQ=DAILY" for number in range(10)]
    found = read(calendar(*daily), limits=replace(LIMITS, most_instances=100))
    assert (len(found.events), found.cut_short) == (100, True)


def test_a_line_that_is_too_long_spoils_its_event_only() -> None:
    found = read(calendar(f"UID:long|SUMMARY:{'x' * 100_000}|DTSTART:20260303T090000Z", DENTIST))
    assert (kept(found), found.unreadable) == ({"dentist"}, 1)


def test_a_long_line_that_nobody_asks_for_does_no_harm() -> None:
    found = read(calendar(f"{DENTIST}|DESCRIPTION:{'x' * 1_000_000}|ATTACH:{'y' * 1_000_000}"))
    assert (kept(found), found.unreadable) == ({"dentist"}, 0)


def test_a_long_title_is_cut() -> None:
    (event,) = read(calendar(f"{DENTIST}|SUMMARY:{'long ' * 1_000}")).events
    assert len(event.title) <= 200
    assert event.title.endswith("long…")


@pytest.mark.parametrize(
    "deep", [b"BEGIN:X\n", b"BEGIN:VCALENDAR\n", b"BEGIN:VEVENT\n", b"BEGIN:VTIMEZONE\nBEGIN:STANDARD\n", b"END:X\n", b"END:VEVENT\n"]
)
def test_deep_nesting_ends_nowhere_deep(deep: bytes) -> None:
    found = read(calendar(DENTIST).replace(b"END:VCALENDAR", deep * 20_000 + b"END:VCALENDAR"))
    assert kept(found) == {"dentist"}


def test_a_described_zone_whose_changes_never_end_is_taken_for_none() -> None:
    change = (
        "BEGIN:STANDARD\r\nDTSTART:16010101T000000\r\nRRULE:FREQ=SECONDLY\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0200\r\nEND:STANDARD\r\n"
    )
    zone = f"BEGIN:VTIMEZONE\r\nTZID:Mine\r\n{change * 100}END:VTIMEZONE\r\n".encode()
    content = calendar("UID:there|DTSTART;TZID=Mine:20260303T090000", DENTIST).replace(b"VERSION:2.0\r\n", zone)
    assert kept(read(content)) == {"there", "dentist"}


def test_an_allowance_is_spent_from_the_whole_as_well() -> None:
    whole = Allowance(5)
    Allowance(10, whole).spend(4)
    with pytest.raises(TooMuchWork):
        Allowance(10, whole).spend(2)
