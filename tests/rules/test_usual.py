"""The mean of the weeks before."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.usual import mean_by_category, mean_of, weeks_before
from storage.records import Weekday
from tests.rules.made import MONDAY


def test_four_weeks_before_count() -> None:
    earlier = tuple(MONDAY - timedelta(weeks=n) for n in (1, 2, 3, 4))
    assert weeks_before(MONDAY, date(2020, 1, 1), Weekday.MONDAY) == earlier


def test_weeks_before_the_person_began_do_not_count() -> None:
    assert weeks_before(MONDAY, MONDAY - timedelta(days=10), Weekday.MONDAY) == (MONDAY - timedelta(weeks=1), MONDAY - timedelta(weeks=2))
    assert weeks_before(MONDAY, MONDAY, Weekday.MONDAY) == ()
    assert weeks_before(MONDAY, None, Weekday.MONDAY) == ()


def test_the_week_one_began_in_counts_whole_whatever_day_weeks_start_on() -> None:
    sunday = MONDAY - timedelta(days=1)
    assert weeks_before(sunday, sunday - timedelta(days=1), Weekday.SUNDAY) == (sunday - timedelta(weeks=1),)


def test_a_week_without_hours_in_between_counts_as_nothing() -> None:
    assert mean_by_category([{1: 60}, {}, {1: 30, 2: 90}]) == {1: 30, 2: 30}
    assert mean_by_category([]) == {}


@given(st.lists(st.integers(0, 10_000), min_size=1, max_size=4))
def test_a_mean_is_exact_to_half_a_minute_and_halves_go_up(minutes: list[int]) -> None:
    exact = Fraction(sum(minutes), len(minutes))
    assert -Fraction(1, 2) < mean_of(minutes) - exact <= Fraction(1, 2)
