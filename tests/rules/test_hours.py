from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.hours import planned_by_category, spent_by_category
from storage.records import TaskState
from tests.rules.made import MONDAY, occurrence, stint, task

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


STINTS = st.lists(st.tuples(st.sampled_from([WORKSHOP, MUSEUM]), st.integers(1, 600)), max_size=20)


@given(STINTS, STINTS)
def test_hours_by_category_add_up_whichever_way_they_are_split(one: list[tuple[int, int]], other: list[tuple[int, int]]) -> None:
    first, second = ([stint(category, MONDAY, minutes) for category, minutes in each] for each in (one, other))
    parts = [spent_by_category(each) for each in (first, second)]

    together = spent_by_category([*first, *second])

    assert together == {key: sum(part.get(key, 0) for part in parts) for key in {*parts[0], *parts[1]}}
    assert sum(together.values()) == sum(minutes for _, minutes in one + other)
