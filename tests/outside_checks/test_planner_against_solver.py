"""The planner against an independent solver.

Source: OR-tools CP-SAT, which proves its optima. The whole comparison, a
thousand days and a hundred weeks, is in tests/benchmarks/planning.py.
"""

from __future__ import annotations

from random import Random

import pytest

from bot.rules.planning.day import plan_day
from bot.rules.planning.week import plan_week
from tests.outside_checks.made_weeks import crowded_day, random_day, random_week
from tests.outside_checks.solver_models import best_day, best_week
from tests.rules.naive_days import naive

pytest.importorskip("ortools", reason="OR-tools, the independent solver, is not installed")


@pytest.mark.parametrize("seed", range(4))
def test_the_plan_of_a_random_day_is_as_good_as_the_one_a_solver_proves_best(seed: int) -> None:
    random = Random(seed)
    for _ in range(10):
        day = random_day(random)

        assert plan_day(day).objective.rank == best_day(naive(day))


@pytest.mark.parametrize("seed", range(4))
def test_the_plan_of_a_random_week_is_as_good_as_the_one_a_solver_proves_best(seed: int) -> None:
    random = Random(seed)
    for _ in range(5):
        week = random_week(random)

        plan = plan_week(week)

        assert plan.proven
        assert plan.objective.rank == best_week(week)


@pytest.mark.parametrize("seed", range(2))
def test_so_is_the_plan_of_a_day_with_twenty_tasks(seed: int) -> None:
    random = Random(seed)
    for _ in range(3):
        day = crowded_day(random)

        plan = plan_day(day)

        assert plan.proven
        assert plan.objective.rank == best_day(naive(day))
