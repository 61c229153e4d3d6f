"""What is worth saying of a week, rule by rule."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.observations import (
    MOST,
    BelowLeast,
    CarriedOften,
    CategoryWeeks,
    EstimatesMoved,
    FewerThanUsual,
    FullestDay,
    OverMost,
    WeekFacts,
    observations,
)
from tests.rules.made import MONDAY, goal

QUIET = WeekFacts((CategoryWeeks("workshop", ((600, None),)),), {MONDAY: 300, MONDAY + timedelta(days=1): 300})


def test_a_quiet_week_needs_no_words() -> None:
    assert observations(QUIET) == ()


def test_a_category_over_its_most_is_named_by_how_much_and_the_furthest_alone() -> None:
    over = (CategoryWeeks("workshop", ((601, None),), 600), CategoryWeeks("museum", ((500, None),), 480))
    assert observations(replace(QUIET, categories=over)) == (OverMost("museum", 20),)
    assert observations(replace(QUIET, categories=(CategoryWeeks("workshop", ((600, None),), 600),))) == ()


def test_three_weeks_in_a_row_below_what_is_wanted_at_least() -> None:
    short, fine = (100, 240), (240, 240)
    for weeks, told in (
        ((short, short, short), (BelowLeast("learning", 3),)),
        ((short, short, short, short, fine), (BelowLeast("learning", 4),)),
        ((short, short, fine, short), ()),
        ((fine, short, short, short), ()),
        ((short, short, (100, None)), ()),
    ):
        assert observations(replace(QUIET, categories=(CategoryWeeks("learning", weeks),))) == told


def test_a_goal_carried_three_times() -> None:
    goals = (replace(goal(1), carried=2), replace(goal(2), carried=4), replace(goal(3), carried=3))
    assert observations(replace(QUIET, open_goals=goals)) == (CarriedOften("Goal 2", 4),)
    assert observations(replace(QUIET, open_goals=goals[:1])) == ()


def test_fewer_hours_than_usual_by_more_than_a_quarter() -> None:
    assert observations(replace(QUIET, usual=801)) == (FewerThanUsual(600, 801),)
    assert observations(replace(QUIET, usual=800)) == ()


def test_estimates_that_moved_by_a_tenth() -> None:
    ratios = (("workshop", 1.0, 1.09), ("home", 1.2, 1.0), ("museum", 1.0, 1.15))
    assert observations(replace(QUIET, ratios=ratios)) == (EstimatesMoved("home", 1.2, 1.0),)
    assert observations(replace(QUIET, ratios=ratios[:1])) == ()


def test_the_fullest_of_three_days_when_it_stands_alone() -> None:
    days = {MONDAY + timedelta(days=n): minutes for n, minutes in enumerate((100, 300, 200))}
    assert observations(replace(QUIET, by_day=days)) == (FullestDay(MONDAY + timedelta(days=1), 300),)
    assert observations(replace(QUIET, by_day={**days, MONDAY: 300})) == ()


CATEGORIES = st.lists(
    st.builds(
        CategoryWeeks,
        st.sampled_from(("workshop", "home")),
        st.lists(st.tuples(st.integers(0, 999), st.none() | st.integers(0, 999)), min_size=1, max_size=5).map(tuple),
        st.none() | st.integers(0, 999),
    ),
    max_size=4,
).map(tuple)
FACTS = st.builds(
    WeekFacts,
    CATEGORIES,
    st.dictionaries(st.dates(MONDAY, date(2026, 3, 8)), st.integers(0, 900)),
    st.lists(st.integers(0, 6).map(lambda times: replace(goal(1), carried=times)), max_size=3).map(tuple),
    st.none() | st.integers(0, 9000),
    st.lists(st.tuples(st.just("home"), st.floats(0.5, 2), st.floats(0.5, 2)), max_size=3).map(tuple),
)


@given(FACTS)
def test_there_are_three_at_most_each_of_its_own_kind(facts: WeekFacts) -> None:
    found = observations(facts)
    assert len(found) <= MOST
    assert len({type(each) for each in found}) == len(found)
