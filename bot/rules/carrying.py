"""Which goals go on into the next week or month."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from storage.records import Goal, GoalState, Horizon


@dataclass(frozen=True, slots=True)
class Carried:
    """The goal as it is closed in its old period, and the one that goes on (not kept yet: id 0)."""

    old: Goal
    new: Goal


def unmet(goals: Iterable[Goal], horizon: Horizon, period: date) -> tuple[Goal, ...]:
    """The goals of that week or month that are still open: neither met, carried nor dropped."""
    return tuple(goal for goal in goals if goal.horizon is horizon and goal.period == period and goal.state is GoalState.OPEN)


def carry(goal: Goal, period: date) -> Carried:
    """Carries an open ``goal`` to the week or month that starts with ``period``, counting one more carry."""
    new = replace(goal, id=0, period=period, state=GoalState.OPEN, carried=goal.carried + 1, origin_id=goal.id)
    return Carried(replace(goal, state=GoalState.CARRIED), new)


def put_to_month(goal: Goal, month: date) -> Carried:
    """Puts an open weekly ``goal`` back to the month whose first day is ``month``; that is not one more carry."""
    new = replace(goal, id=0, horizon=Horizon.MONTH, period=month, state=GoalState.OPEN, origin_id=goal.id)
    return Carried(replace(goal, state=GoalState.CARRIED), new)


def taken_into_week(goal: Goal, week: date) -> Goal:
    """A weekly goal that serves the monthly ``goal``, which stays open until the person says it is met."""
    return replace(goal, id=0, horizon=Horizon.WEEK, period=week, state=GoalState.OPEN, carried=0, origin_id=goal.id)
