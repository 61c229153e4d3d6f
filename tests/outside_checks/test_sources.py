"""One command runs every check against the outside: ``python -m pytest -m outside``. It leaves none of these out."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.outside_checks.sources import is_outside

TESTS = Path(__file__).parents[1]


@pytest.mark.parametrize(
    "file",
    [
        "outside_checks/test_time_phrases_of_packages.py",
        "outside_checks/test_rfc5545.py",
        "outside_checks/test_rfc5545_times.py",
        "outside_checks/test_calendar_packages.py",
        "outside_checks/test_pay_overtime.py",
        "outside_checks/test_weather_tables.py",
        "outside_checks/test_planner_against_solver.py",
        "outside_checks/test_knapsack_instances.py",
        "pictures/test_timesheet_xlsx.py",
        "pictures/test_palette.py",
        "rules/test_weeks.py",
        "rules/test_local_time.py",
        "rules/test_weather_danger.py",
    ],
)
def test_what_is_checked_against_the_outside_is_in_the_one_command(file: str, request: pytest.FixtureRequest) -> None:
    assert is_outside(TESTS / file)
    assert request.node.get_closest_marker("outside") is not None


@pytest.mark.parametrize("file", ["language/test_written.py", "rules/test_carrying.py", "actions/test_hours.py"])
def test_our_own_promises_are_not(file: str) -> None:
    assert not is_outside(TESTS / file)
