from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.hours import Use, clock_hours, hours_of_day, planned_by_category, spent_by_category
from bot.rules.local_time import day_bounds
from storage.records import TaskState
from tests.rules.made import BRUSSELS, MONDAY, occurrence, stint, task
from tests.rules.test_local_time import CHANGES, ZONES

WORKSHOP, MUSEUM = 1, 2


def test_hours_spent_are_the_net_minutes_of_each_category() -> None:
    stints = [stint(WORKSHOP, MONDAY, 180), stint(MUSEUM, MONDAY, 210, "2026-03-02 13:00"), stint(WORKSHOP, MONDAY, 45)]

    assert spent_by_category(stints) == {WORKSHOP: 225, MUSEUM: 210}
    assert spent_by_category([]) == {}


def test_hours_planned_are_occurrences_and_the_estimates_of_tasks_that_were_not_dropped() -> None:
    shift = occurrence("2026-03-02 13:00", "2026-03-02 17:00", category_id=MUSEUM)
    dentist = occurrence("2026-03-02 09:00", "2026-03-02 10:00")
    repair, without_estimate = task("Repair", 90, WORKSHOP), task("Call", None, WORKSHOP)
    dropped = replace(task("Sweep", 30, WORKSHOP), state=TaskState.DROPPED)
    closed = replace(task("True a wheel", 30, WORKSHOP), state=TaskState.CLOSED)

    planned = planned_by_category([shift, dentist], [repair, without_estimate, dropped, closed])

    assert planned == {MUSEUM: 240, WORKSHOP: 120}


def test_a_planned_night_counts_the_hours_that_really_pass() -> None:
    # Source: tz database, rule EU: the night before 29 March 2026 is an hour short in Brussels.
    night = occurrence("2026-03-28 22:00", "2026-03-29 06:00", category_id=MUSEUM)

    assert planned_by_category([night]) == {MUSEUM: 7 * 60}


def test_each_hour_of_the_day_is_planned_spent_both_or_free() -> None:
    shift = occurrence("2026-03-02 13:00", "2026-03-02 15:00", category_id=MUSEUM)
    hours = hours_of_day(MONDAY, BRUSSELS, [shift], [stint(MUSEUM, MONDAY, 120, "2026-03-02 14:30"), stint(MUSEUM, MONDAY, 60)])

    assert [hour.use for hour in hours[12:18]] == [Use.FREE, Use.PLANNED, Use.BOTH, Use.SPENT, Use.SPENT, Use.FREE]
    assert [hour.spent_minutes for hour in hours[14:17]] == [30, 60, 30]


def test_minutes_planned_twice_count_once_in_an_hour() -> None:
    twice = [occurrence("2026-03-02 13:00", "2026-03-02 13:40"), occurrence("2026-03-02 13:20", "2026-03-02 14:00", id=2)]

    assert hours_of_day(MONDAY, BRUSSELS, twice, [])[13].planned_minutes == 60


@pytest.mark.parametrize(("zone", "day", "hours", "_starts"), CHANGES)
def test_a_day_has_as_many_clock_hours_as_it_lasts(zone: str, day: str, hours: float, _starts: str) -> None:
    found = clock_hours(date.fromisoformat(day), zone)

    assert sum((each.ends - each.starts for each in found), timedelta(0)) == timedelta(hours=hours)


@given(st.sampled_from(ZONES), st.dates(date(2012, 1, 1), date(2037, 1, 1)))
def test_clock_hours_fill_the_day_without_a_hole(zone: str, day: date) -> None:
    hours = clock_hours(day, zone)

    assert (hours[0].starts, hours[-1].ends) == day_bounds(day, zone)
    assert all(one.ends == other.starts for one, other in pairwise(hours))
    assert all(0 < each.minutes <= 60 for each in hours)


STINTS = st.lists(st.tuples(st.sampled_from([WORKSHOP, MUSEUM]), st.integers(1, 600)), max_size=20)


@given(STINTS, STINTS)
def test_hours_by_category_add_up_whichever_way_they_are_split(one: list[tuple[int, int]], other: list[tuple[int, int]]) -> None:
    first, second = ([stint(category, MONDAY, minutes) for category, minutes in each] for each in (one, other))
    parts = [spent_by_category(each) for each in (first, second)]

    together = spent_by_category([*first, *second])

    assert together == {key: sum(part.get(key, 0) for part in parts) for key in {*parts[0], *parts[1]}}
    assert sum(together.values()) == sum(minutes for _, minutes in one + other)


@given(st.datetimes(datetime(2026, 3, 2), datetime(2026, 3, 2, 20)), st.integers(1, 180))
def test_the_spent_minutes_of_the_hours_add_up_to_the_stint(start: datetime, minutes: int) -> None:
    worked = stint(WORKSHOP, MONDAY, minutes, f"{start:%Y-%m-%d %H:%M}")

    assert sum(hour.spent_minutes for hour in hours_of_day(MONDAY, BRUSSELS, [], [worked])) == minutes
