from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.pay.breaks import break_due, break_taken, break_to_take_off
from storage.records import BreakRule, Stint
from tests.rules.made import MONDAY, stint, wall

WORKSHOP = 1
GERMAN = (BreakRule(6 * 60, 30), BreakRule(9 * 60, 45))
"""Source: Arbeitszeitgesetz, section 4: 30 minutes over six hours, 45 over nine."""


@pytest.mark.parametrize(("worked", "due"), [(0, 0), (360, 0), (361, 30), (540, 30), (541, 45), (700, 45)])
def test_a_break_is_due_only_over_the_hours_that_a_rule_names(worked: int, due: int) -> None:
    assert break_due(worked, GERMAN) == due


def test_a_noted_break_is_not_taken_off_twice() -> None:
    day = [Stint(1, WORKSHOP, MONDAY, 8 * 60, wall("2026-03-02 08:00"), wall("2026-03-02 16:20"), 20)]

    assert break_to_take_off(day, GERMAN) == 10


def test_the_time_between_two_stints_is_a_break() -> None:
    day = [stint(WORKSHOP, MONDAY, 240, "2026-03-02 08:00"), stint(WORKSHOP, MONDAY, 240, "2026-03-02 12:30")]

    assert break_taken(day) == 30
    assert break_to_take_off(day, GERMAN) == 0


def test_stints_without_times_tell_of_no_break_between_them() -> None:
    assert break_to_take_off([stint(WORKSHOP, MONDAY, 240), stint(WORKSHOP, MONDAY, 240)], GERMAN) == 30


def test_a_break_never_takes_more_than_was_worked() -> None:
    assert break_to_take_off([stint(WORKSHOP, MONDAY, 5)], [BreakRule(0, 30)]) == 5


@given(st.integers(1, 900), st.integers(0, 120))
def test_breaks_noted_and_taken_off_together_are_at_least_what_is_due(minutes: int, noted: int) -> None:
    day = [Stint(1, WORKSHOP, MONDAY, minutes, break_minutes=noted)]

    together = noted + break_to_take_off(day, GERMAN)

    assert together == max(noted, break_due(minutes, GERMAN))
