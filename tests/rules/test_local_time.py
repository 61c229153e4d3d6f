"""Local times beside published clock changes.

Sources of the changes: the tz database, release 2026 (files europe, africa,
northamerica, southamerica, australasia): the table below names each rule.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.local_time import ONE_DAY, day_bounds, elapsed_minutes, exists, first_instant_from, instant_of, local, local_day
from tests.rules.made import utc, wall

ZONES = [
    "Europe/Brussels",
    "America/New_York",
    "Africa/Cairo",
    "Australia/Lord_Howe",
    "America/Havana",
    "Pacific/Chatham",
    "America/Santiago",
    "Pacific/Apia",
    "Asia/Kolkata",
]

# zone, day, hours that the day has, UTC start of the day
CHANGES = [
    # Rule EU: last Sunday of March and of October at 01:00 UTC.
    ("Europe/Brussels", "2026-03-29", 23, "2026-03-28 23:00"),
    ("Europe/Brussels", "2026-10-25", 25, "2026-10-24 22:00"),
    # Rule US: second Sunday of March and first of November at 2:00.
    ("America/New_York", "2026-03-08", 23, "2026-03-08 05:00"),
    ("America/New_York", "2026-11-01", 25, "2026-11-01 04:00"),
    # Rule Egypt: last Friday of April at 0:00, so that day starts at 01:00; last Thursday of October at 24:00.
    ("Africa/Cairo", "2026-04-24", 23, "2026-04-23 22:00"),
    ("Africa/Cairo", "2026-10-29", 25, "2026-10-28 21:00"),
    # Rule LH: first Sunday of October and of April at 2:00, by half an hour.
    ("Australia/Lord_Howe", "2026-10-04", 23.5, "2026-10-03 13:30"),
    ("Australia/Lord_Howe", "2026-04-05", 24.5, "2026-04-04 13:00"),
    # Rule Cuba: second Sunday of March at 0:00 standard time; first Sunday of November at 0:00 standard time, but not in 2026.
    ("America/Havana", "2026-03-08", 23, "2026-03-08 05:00"),
    ("America/Havana", "2025-11-02", 25, "2025-11-02 04:00"),
    ("America/Havana", "2026-11-01", 24, "2026-11-01 04:00"),
    # Rule Chatham: last Sunday of September and first of April at 2:45 standard time.
    ("Pacific/Chatham", "2026-09-27", 23, "2026-09-26 11:15"),
    ("Pacific/Chatham", "2026-04-05", 25, "2026-04-04 10:15"),
    # Rule Chile: first Sunday on or after 2 September at 4:00 UTC; the same of April at 3:00 UTC, still Saturday there.
    ("America/Santiago", "2026-09-06", 23, "2026-09-06 04:00"),
    ("America/Santiago", "2026-04-04", 25, "2026-04-04 03:00"),
    # Zone Pacific/Apia: the whole of 30 December 2011 was left out.
    ("Pacific/Apia", "2011-12-30", 0, "2011-12-30 10:00"),
]


@pytest.mark.parametrize(("zone", "day", "hours", "starts"), CHANGES)
def test_a_day_of_a_clock_change_starts_and_lasts_as_published(zone: str, day: str, hours: float, starts: str) -> None:
    opens, closes = day_bounds(date.fromisoformat(day), zone)

    assert opens == utc(starts)
    assert closes - opens == timedelta(hours=hours)


def test_a_skipped_time_is_read_with_the_offset_before_the_change() -> None:
    # Source: RFC 5545, section 3.3.5: 2:30 AM in New York on 11 March 2007 is read as 3:30 AM EDT, 07:30 UTC.
    assert instant_of(date(2007, 3, 11), time(2, 30), "America/New_York") == utc("2007-03-11 07:30")
    assert not exists(date(2007, 3, 11), time(2, 30), "America/New_York")


def test_a_repeated_time_is_the_first_of_the_two() -> None:
    # Source: RFC 5545, section 3.3.5: 1:30 AM in New York on 4 November 2007 is read as 1:30 AM EDT, 05:30 UTC.
    assert instant_of(date(2007, 11, 4), time(1, 30, fold=1), "America/New_York") == utc("2007-11-04 05:30")


@pytest.mark.parametrize(
    ("zone", "day", "at", "comes"),
    [
        ("Europe/Brussels", "2026-03-29", time(2, 30), "2026-03-29 01:00"),
        ("Africa/Cairo", "2026-04-24", time(0, 0), "2026-04-23 22:00"),
        ("Africa/Cairo", "2026-04-24", time(0, 59), "2026-04-23 22:00"),
        ("Australia/Lord_Howe", "2026-10-04", time(2, 29), "2026-10-03 15:30"),
        ("America/Havana", "2026-03-08", time(0, 15), "2026-03-08 05:00"),
        ("Pacific/Chatham", "2026-09-27", time(3, 0), "2026-09-26 14:00"),
    ],
)
def test_what_comes_after_a_skipped_time_is_the_change_itself(zone: str, day: str, at: time, comes: str) -> None:
    assert first_instant_from(date.fromisoformat(day), at, zone) == utc(comes)


@given(st.sampled_from(ZONES), st.datetimes(datetime(2008, 1, 1), datetime(2037, 12, 31), timezones=st.just(UTC)))
def test_every_instant_lies_within_the_bounds_of_its_local_day(zone: str, instant: datetime) -> None:
    opens, closes = day_bounds(local_day(instant, zone), zone)

    assert opens <= instant < closes


@given(st.sampled_from(ZONES), st.dates(date(2008, 1, 1), date(2037, 12, 31)))
def test_one_day_ends_as_the_next_starts(zone: str, day: date) -> None:
    assert day_bounds(day, zone)[1] == day_bounds(day + ONE_DAY, zone)[0]


@given(st.sampled_from(ZONES), st.dates(date(2008, 1, 1), date(2037, 12, 31)), st.times().map(lambda at: at.replace(microsecond=0)))
def test_a_time_that_exists_is_shown_at_its_instant(zone: str, day: date, at: time) -> None:
    shown = local(instant_of(day, at, zone), zone)

    assert exists(day, at, zone) == (shown.replace(tzinfo=None, fold=0) == datetime.combine(day, at))
    assert first_instant_from(day, at, zone) <= instant_of(day, at, zone)


def test_elapsed_minutes_count_real_time_across_a_clock_change() -> None:
    assert elapsed_minutes(wall("2026-03-28 22:00"), wall("2026-03-29 06:00")) == 7 * 60
    assert elapsed_minutes(local(wall("2026-10-24 22:00"), "Europe/Brussels"), local(wall("2026-10-25 06:00"), "Europe/Brussels")) == 9 * 60


def test_elapsed_minutes_agree_with_the_times_that_are_shown() -> None:
    assert elapsed_minutes(utc("2026-03-02 09:00:40"), utc("2026-03-02 10:00:20")) == 60
