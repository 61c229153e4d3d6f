"""What would make room for a goal that a week does not hold: the mildest change that really does."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.rules.planning.remedies import FillMore, MoreTime, Without
from bot.rules.planning.week import plan_week
from bot.rules.planning.week_asked import DayRoom, OpenWeek, Short, WeekGoal, WeekTarget, Why
from bot.rules.planning.week_remedies import week_remedy
from tests.outside_checks.made_weeks import crowded_week

MONDAY = date(2026, 3, 2)


def week(minutes: int, *goals: WeekGoal, targets: tuple[WeekTarget, ...] = ()) -> OpenWeek:
    return OpenWeek(tuple(DayRoom(MONDAY + timedelta(days=day), minutes) for day in range(2)), goals, targets)


def remedy_of(key: str, asked: OpenWeek, filled: OpenWeek) -> object:
    (short,) = [short for short in plan_week(asked).short if short.key == key]
    return week_remedy(asked, filled, short)


def test_hours_kept_free_are_named_first() -> None:
    goals = WeekGoal("essay", 120), WeekGoal("garage", 180)
    assert remedy_of("garage", week(120, *goals), week(150, *goals)) == FillMore(60)


def test_then_the_least_valuable_goal_whose_time_would_do() -> None:
    goals = WeekGoal("essay", 120, 5), WeekGoal("photos", 120, 2), WeekGoal("letters", 120, 3)
    assert remedy_of("photos", week(120, *goals), week(120, *goals)) == Without("letters")


def test_of_equally_valuable_goals_the_one_named_last() -> None:
    goals = WeekGoal("essay", 120, 3), WeekGoal("letters", 120, 3), WeekGoal("photos", 120, 2)
    assert remedy_of("photos", week(120, *goals), week(120, *goals)) == Without("letters")


def test_where_no_single_change_would_do_the_time_that_lacks() -> None:
    asked = week(60, WeekGoal("essay", 600))
    assert remedy_of("essay", asked, asked) == MoreTime(480)


def test_where_its_category_may_have_no_more_nothing_of_the_week_is_in_the_way() -> None:
    asked = week(120, WeekGoal("essay", 120, category_id=1), targets=(WeekTarget("target", 1, at_most_minutes=60),))
    assert plan_week(asked).short == (Short("essay", 60, Why.AT_MOST),)
    assert remedy_of("essay", asked, asked) is None


@given(st.integers(0, 10**6))
@settings(max_examples=6, deadline=None)
def test_what_is_named_really_makes_room(seed: int) -> None:
    asked = crowded_week(Random(seed))
    filled = replace(asked, days=tuple(replace(room, minutes=room.minutes * 5 // 4) for room in asked.days))
    for short in plan_week(asked).short[:1]:
        remedy = week_remedy(asked, filled, short)
        if isinstance(remedy, FillMore):
            assert all(each.key != short.key for each in plan_week(filled).short)
        elif isinstance(remedy, Without):
            others = tuple(goal for goal in asked.goals if goal.key != remedy.key)
            assert all(each.key != short.key for each in plan_week(replace(asked, goals=others)).short)
