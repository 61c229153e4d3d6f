"""When rounds fall due: exactly once a local day."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.due import due_on, next_round
from bot.rules.local_time import local_day
from storage.records import Weekday
from tests.rules.made import utc, wall
from tests.rules.test_local_time import CHANGES, ZONES


def rounds_of(zone: str, at: time, first: date, days: int) -> list[tuple[date, datetime]]:
    """The rounds of ``days`` local days, each found from the one before."""
    after = datetime.combine(first, time.min, UTC) - timedelta(days=2)
    found: list[tuple[date, datetime]] = []
    while not found or found[-1][0] < first + timedelta(days=days - 1):
        day, after = next_round(at, after, zone)
        found.append((day, after))
    return [each for each in found if each[0] >= first]


@pytest.mark.parametrize(("zone", "day"), [(zone, day) for zone, day, hours, _ in CHANGES if hours])
@pytest.mark.parametrize("at", [time(0, 0), time(0, 30), time(1, 30), time(2, 15), time(2, 45), time(3, 0), time(6, 0), time(23, 30)])
def test_a_week_across_a_clock_change_has_one_round_a_local_day(zone: str, day: str, at: time) -> None:
    first = date.fromisoformat(day) - timedelta(days=3)

    rounds = rounds_of(zone, at, first, 7)

    assert [each for each, _ in rounds] == [first + timedelta(days=number) for number in range(7)]
    assert [local_day(due, zone) for _, due in rounds] == [each for each, _ in rounds]


def test_a_day_that_a_zone_left_out_has_no_round() -> None:
    # Source: tz database, zone Pacific/Apia: 29 December 2011 was followed by the 31st.
    days = [day for day, _ in rounds_of("Pacific/Apia", time(6), date(2011, 12, 28), 5)]

    assert days == [date(2011, 12, 28), date(2011, 12, 29), date(2011, 12, 31), date(2012, 1, 1)]
    assert due_on(date(2011, 12, 30), time(6), "Pacific/Apia") is None


def test_a_round_set_for_a_skipped_time_falls_due_as_the_clocks_jump() -> None:
    # Source: tz database, rule EU: at 01:00 UTC the clocks jump from 02:00 to 03:00.
    assert due_on(date(2026, 3, 29), time(2, 30), "Europe/Brussels") == utc("2026-03-29 01:00")


def test_a_round_set_for_a_repeated_time_falls_due_the_first_time_only() -> None:
    # Source: tz database, rule EU: at 01:00 UTC the clocks fall from 03:00 to 02:00.
    first = next_round(time(2, 30), wall("2026-10-25 00:00"), "Europe/Brussels")

    assert first == (date(2026, 10, 25), utc("2026-10-25 00:30"))
    assert next_round(time(2, 30), first[1], "Europe/Brussels")[0] == date(2026, 10, 26)


def test_a_round_that_is_due_now_is_not_the_next_one() -> None:
    at_six = wall("2026-03-02 06:00")

    assert next_round(time(6), at_six - timedelta(seconds=1), "Europe/Brussels") == (date(2026, 3, 2), at_six)
    assert next_round(time(6), at_six, "Europe/Brussels") == (date(2026, 3, 3), wall("2026-03-03 06:00"))


def is_sunday(day: date) -> bool:
    return day.weekday() == Weekday.SUNDAY


def test_a_recap_falls_due_on_its_weekday() -> None:
    # Source: 8 March 2026 is a Sunday (ISO 8601 week 2026-W10-7).
    assert next_round(time(18), wall("2026-03-02 06:00"), "Europe/Brussels", is_sunday) == (
        date(2026, 3, 8),
        wall("2026-03-08 18:00"),
    )
    assert next_round(time(18), wall("2026-03-08 18:00"), "Europe/Brussels", is_sunday)[0] == date(2026, 3, 15)


@given(
    st.sampled_from(ZONES),
    st.datetimes(datetime(2008, 1, 1), datetime(2037, 1, 1), timezones=st.just(UTC)),
    st.times().map(lambda at: at.replace(second=0, microsecond=0)),
)
def test_rounds_come_one_a_day_later_and_later_and_none_is_left_out(zone: str, after: datetime, at: time) -> None:
    found = [next_round(at, after, zone)]
    for _ in range(4):
        found.append(next_round(at, found[-1][1], zone))

    assert after < found[0][1] <= after + timedelta(days=2, hours=2)
    for (day, due), (next_day, next_due) in pairwise(found):
        assert due < next_due
        left_out = [day + timedelta(days=number) for number in range(1, (next_day - day).days)]
        assert all(due_on(each, at, zone) is None for each in left_out)
