"""Series: further dates, excepted ones, changed ones, and the names by which each is known."""

from __future__ import annotations

from datetime import timedelta
from itertools import permutations

import pytest

from bot.rules.calendar_events import EventKey
from tests.outside.calendars_made import WEEKLY, at, events_of


def brussels(name: str, wall: str) -> str:
    """A property whose time is on the clocks of Brussels."""
    return f"{name};TZID=Europe/Brussels:{wall}"


def test_further_dates_belong_to_the_series_and_may_bring_their_own_length() -> None:
    dates = "RDATE:20260305T090000Z,20260306T090000Z"
    periods = "RDATE;VALUE=PERIOD:20260307T090000Z/PT3H,20260308T090000Z/20260308T110000Z"
    events = events_of(f"DTSTART:20260303T090000Z|DURATION:PT1H|{dates}|{periods}")
    lasting = [(event.starts.day, (event.ends - event.starts) // timedelta(hours=1)) for event in events]
    assert lasting == [(3, 1), (5, 1), (6, 1), (7, 3), (8, 2)]


@pytest.mark.parametrize(
    "excepted",
    [
        "EXDATE:20260310T120000Z",
        "EXDATE;TZID=Europe/Brussels:20260310T130000",
        "EXDATE;TZID=America/New_York:20260310T080000",
        "EXDATE;VALUE=DATE:20260310",
    ],
)
def test_an_excepted_date_is_left_out_whichever_way_it_is_written(excepted: str) -> None:
    assert [event.starts.day for event in events_of(f"{WEEKLY}|{excepted}")] == [3, 17, 24, 31]


def test_whole_days_may_be_excepted() -> None:
    events = events_of("DTSTART;VALUE=DATE:20260303|RRULE:FREQ=DAILY;COUNT=4|EXDATE;VALUE=DATE:20260304,20260305")
    assert [event.recurrence for event in events] == ["20260303", "20260306"]


def test_a_moved_recurrence_keeps_the_name_that_its_rule_gave_it() -> None:
    moved = "|".join(["UID:shift", brussels("RECURRENCE-ID", "20260310T130000"), brussels("DTSTART", "20260311T090000"), "DURATION:PT2H"])
    before = {event.key: event for event in events_of(WEEKLY)}
    after = {event.key: event for event in events_of(WEEKLY, moved)}
    assert before.keys() == after.keys()
    key = EventKey("shift", "20260310T120000Z")
    assert (before[key].starts, after[key].starts, after[key].ends) == (
        at("2026-03-10 12:00"),
        at("2026-03-11 08:00"),
        at("2026-03-11 10:00"),
    )
    assert all(before[each] == after[each] for each in before if each != key)


def test_a_recurrence_may_be_moved_out_of_the_days_asked_for_and_into_them() -> None:
    out = "UID:shift|RECURRENCE-ID:20260310T120000Z|DTSTART:20260610T120000Z"
    into = "UID:shift|RECURRENCE-ID:20260609T110000Z|DTSTART:20260312T120000Z"
    assert [event.recurrence for event in events_of(WEEKLY, out, into)] == [
        "20260303T120000Z",
        "20260609T110000Z",
        "20260317T120000Z",
        "20260324T120000Z",
        "20260331T110000Z",
    ]


def test_a_cancelled_recurrence_is_told_of_as_cancelled() -> None:
    events = events_of(WEEKLY, "UID:shift|RECURRENCE-ID:20260310T120000Z|DTSTART:20260310T120000Z|STATUS:CANCELLED")
    assert [event.cancelled for event in events] == [False, True, False, False, False]


def test_a_calendar_that_calls_off_cancels_all_its_events() -> None:
    assert all(event.cancelled for event in events_of(WEEKLY, header="METHOD:CANCEL"))


def test_the_newest_of_several_versions_holds_in_whatever_order_they_come() -> None:
    versions = [f"UID:choir|SEQUENCE:{number}|DTSTART:2026030{number}T190000Z|RRULE:FREQ=WEEKLY;COUNT=2" for number in (1, 3, 2)]
    change = "UID:choir|SEQUENCE:{}|RECURRENCE-ID:20260310T190000Z|DTSTART:202603{}T190000Z"
    changes = [change.format(4, 11), change.format(5, 12)]
    for order in permutations([*versions, *changes]):
        assert [event.starts.day for event in events_of(*order)] == [3, 12]


def test_one_recurrence_alone_is_told_of_without_its_series() -> None:
    (event,) = events_of("UID:course|RECURRENCE-ID:20260310T120000Z|DTSTART:20260311T120000Z")
    assert (event.key, event.starts) == (EventKey("course", "20260310T120000Z"), at("2026-03-11 12:00"))


def test_a_change_for_good_holds_from_then_on_until_the_next() -> None:
    for_good = "RECURRENCE-ID;RANGE=THISANDFUTURE"
    changes = [
        ("Early shift", brussels(for_good, "20260324T130000"), brussels("DTSTART", "20260323T090000"), "DURATION:PT4H"),
        ("Inventory", brussels("RECURRENCE-ID", "20260317T130000"), brussels("DTSTART", "20260317T080000"), "DURATION:PT1H"),
        ("Late shift", brussels(for_good, "20260310T130000"), brussels("DTSTART", "20260310T150000"), "DURATION:PT3H"),
    ]
    changed = ["|".join([f"UID:shift|SUMMARY:{title}", *lines]) for title, *lines in changes]
    assert [(event.title, event.starts) for event in events_of(WEEKLY, *changed)] == [
        ("Museum shift", at("2026-03-03 12:00")),
        ("Late shift", at("2026-03-10 14:00")),
        ("Inventory", at("2026-03-17 07:00")),
        ("Early shift", at("2026-03-23 08:00")),
        ("Early shift", at("2026-03-30 07:00")),
    ]


def test_the_old_rest_of_a_series_that_was_cut_is_not_told_of_twice() -> None:
    core = "UID:1|SEQUENCE:2|DTSTART;VALUE=DATE:20260302|RRULE:FREQ=WEEKLY;UNTIL=20260310"
    rest = "UID:1|SEQUENCE:1|RECURRENCE-ID;VALUE=DATE:20260316|DTSTART;VALUE=DATE:20260316|RRULE:FREQ=WEEKLY"
    assert [event.recurrence for event in events_of(core, rest)] == ["20260302", "20260309"]
