from __future__ import annotations

from dataclasses import replace
from random import Random
from statistics import fmean, median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.estimates import MOST_CHANGE, Done, done_of, learned_ratio, with_ratio
from storage.records import Task, TaskState, Work
from tests.rules.made import MONDAY

WORKSHOP = 1

dones = st.builds(Done, estimated=st.integers(1, 600), spent=st.integers(1, 6000))


def history(random: Random, true: float, tasks: int, noise: float = 0.15) -> list[Done]:
    """Tasks whose ratio scatters around ``true``, log-normally."""
    estimates = [random.choice([15, 30, 45, 60, 90, 120, 180]) for _ in range(tasks)]
    return [Done(estimate, max(1, round(estimate * true * random.lognormvariate(0, noise)))) for estimate in estimates]


def test_without_a_past_an_estimate_is_taken_as_it_is() -> None:
    assert learned_ratio([]) == 1.0
    assert learned_ratio([Done(0, 30), Done(30, 0)]) == 1.0


def test_the_published_pair_of_predicted_and_actual_days_is_a_ratio_of_1_64() -> None:
    # Source: Buehler, Griffin and Ross 1994, study 1: 33.9 days predicted, 55.5 days needed. In tenths of a day here.
    assert Done(339, 555).ratio == pytest.approx(1.64, abs=0.005)
    assert learned_ratio([Done(339, 555)] * 8) == pytest.approx(1.64, abs=0.005)


def test_one_task_moves_the_ratio_a_little_and_more_of_them_further() -> None:
    steps = [learned_ratio([Done(60, 90)] * tasks) for tasks in range(10)]

    # By hand: 1 + 0.5 * n / 8, and 1.5 from the eighth task on.
    assert steps == pytest.approx([1, 1.0625, 1.125, 1.1875, 1.25, 1.3125, 1.375, 1.4375, 1.5, 1.5])


@pytest.mark.parametrize("true", [0.5, 0.8, 1.0, 1.3, 1.64, 2.0, 3.0])
def test_after_twenty_tasks_the_true_ratio_is_found_within_a_tenth(true: float) -> None:
    random = Random(20)
    found = [learned_ratio(history(random, true, 20)) for _ in range(500)]

    # A median of twenty such tasks scatters by 4 %, so that a few in a hundred histories mislead anyone.
    assert sum(abs(each - true) <= 0.1 * true for each in found) >= 0.95 * len(found)
    assert median(found) == pytest.approx(true, rel=0.02)
    assert fmean(abs(each - true) / true for each in found) < 0.05


@pytest.mark.parametrize("true", [0.5, 1.0, 1.64, 3.0])
def test_after_twenty_steady_tasks_the_true_ratio_is_found_exactly(true: float) -> None:
    assert learned_ratio([Done(100, round(100 * true))] * 20) == pytest.approx(true)


@pytest.mark.parametrize("true", [0.8, 1.64])
def test_a_tenth_of_wild_outliers_hardly_matters(true: float) -> None:
    random = Random(4)
    found = []
    for _ in range(200):
        tasks = history(random, true, 20)
        for place in random.sample(range(20), 2):
            tasks[place] = replace(tasks[place], spent=tasks[place].estimated * 50)
        found.append(learned_ratio(tasks))

    assert median(found) == pytest.approx(true, rel=0.05)


@given(st.lists(dones, max_size=30), st.builds(Done, estimated=st.integers(1, 10), spent=st.integers(1, 10**6)))
def test_no_single_task_moves_the_ratio_by_more_than_the_stated_share(past: list[Done], outlier: Done) -> None:
    before = learned_ratio(past)

    assert abs(learned_ratio([*past, outlier]) - before) <= MOST_CHANGE * before + 1e-12


@given(st.lists(dones, max_size=30))
def test_the_ratio_stays_between_one_and_what_was_seen(past: list[Done]) -> None:
    seen = [1.0, *(each.ratio for each in past)]

    assert min(seen) - 1e-12 <= learned_ratio(past) <= max(seen) + 1e-12


def test_an_estimate_is_planned_with_its_ratio() -> None:
    assert with_ratio(60, 1.64) == 98
    assert with_ratio(1, 0.2) == 1


def test_closed_tasks_with_stints_of_their_own_count() -> None:
    closed = Task(1, "True a wheel", MONDAY, 1, WORKSHOP, estimate_minutes=60, state=TaskState.CLOSED)
    tasks = [
        replace(closed, id=2, number=2, estimate_minutes=30),
        closed,
        replace(closed, id=3, state=TaskState.OPEN),
        replace(closed, id=4, estimate_minutes=None),
        replace(closed, id=5, category_id=2),
        replace(closed, id=6),
        replace(closed, id=7),
        replace(closed, id=8),
    ]
    work = [
        Work(MONDAY, 50, (1,)),
        Work(MONDAY, 40, (1,)),
        Work(MONDAY, 45, (2,)),
        Work(MONDAY, 45, (3,)),
        Work(MONDAY, 45, (4,)),
        Work(MONDAY, 45, (5,)),
        Work(MONDAY, 45, (6, 7)),
    ]

    assert done_of(tasks, work, WORKSHOP) == (Done(60, 90), Done(30, 45))
