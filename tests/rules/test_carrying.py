from __future__ import annotations

from dataclasses import replace
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.carrying import carry, put_to_month, taken_into_week, unmet
from storage.records import Goal, GoalState, Horizon
from tests.rules.made import MONDAY, goal

NEXT_MONDAY = date(2026, 3, 9)
MARCH = date(2026, 3, 1)


def test_only_open_goals_of_the_period_are_unmet() -> None:
    open_goal = goal(1)
    others = [
        replace(goal(2), state=GoalState.MET),
        replace(goal(3), state=GoalState.DROPPED),
        replace(goal(4), state=GoalState.CARRIED),
        goal(5, period=NEXT_MONDAY),
        goal(6, Horizon.MONTH, MONDAY),
    ]

    assert unmet([open_goal, *others], Horizon.WEEK, MONDAY) == (open_goal,)


def test_a_carried_goal_goes_on_and_remembers_where_it_comes_from_and_how_often() -> None:
    carried = carry(replace(goal(7), carried=1), NEXT_MONDAY)

    assert carried.old == replace(goal(7), carried=1, state=GoalState.CARRIED)
    assert carried.new == replace(goal(0), title="Goal 7", period=NEXT_MONDAY, carried=2, origin_id=7)


def test_a_goal_put_to_the_month_is_a_monthly_one_and_not_carried_once_more() -> None:
    put = put_to_month(replace(goal(7), carried=1), MARCH)

    assert put.old.state is GoalState.CARRIED
    assert put.new == Goal(0, "Goal 7", Horizon.MONTH, MARCH, "personal", carried=1, origin_id=7)


def test_a_months_goal_taken_into_the_week_stays_open_for_the_month() -> None:
    month = replace(goal(2, Horizon.MONTH, MARCH), carried=3)

    assert taken_into_week(month, MONDAY) == Goal(0, "Goal 2", Horizon.WEEK, MONDAY, "personal", origin_id=2)


GOALS = st.lists(
    st.builds(
        Goal,
        id=st.just(0),
        title=st.text(max_size=3),
        horizon=st.sampled_from(Horizon),
        period=st.sampled_from([MARCH, MONDAY, NEXT_MONDAY]),
        section=st.just("work"),
        state=st.sampled_from(GoalState),
    ),
    max_size=12,
).map(lambda goals: [replace(each, id=number + 1) for number, each in enumerate(goals)])


@given(GOALS)
def test_after_every_unmet_goal_is_carried_none_is_left_and_none_is_lost(goals: list[Goal]) -> None:
    waiting = unmet(goals, Horizon.WEEK, MONDAY)
    carried = [carry(each, NEXT_MONDAY) for each in waiting]
    after = [each for each in goals if each not in waiting] + [goal for each in carried for goal in (each.old, each.new)]

    assert unmet(after, Horizon.WEEK, MONDAY) == ()
    assert len(unmet(after, Horizon.WEEK, NEXT_MONDAY)) == len(unmet(goals, Horizon.WEEK, NEXT_MONDAY)) + len(waiting)
    assert sum(each.state in (GoalState.MET, GoalState.DROPPED) for each in after) == sum(
        each.state in (GoalState.MET, GoalState.DROPPED) for each in goals
    )
