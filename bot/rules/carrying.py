"""Which goals go on into the next week or month."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from storage.records import Goal, GoalState, Horizon


class Origin(StrEnum):
    """Where a weekly goal comes from."""

    LAST_WEEK = "last week's unmet"
    MONTH = "the month's pending"
    CAME_UP = "just came up"


@dataclass(frozen=True, slots=True)
class Candidate:
    """A goal that may become, or is, one of the week's."""

    goal: Goal
    origin: Origin


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


def dropped(goal: Goal) -> Goal:
    """``goal``, dropped for good."""
    return replace(goal, state=GoalState.DROPPED)


def candidates(goals: Iterable[Goal], last_week: date, week: date, month: date) -> tuple[Candidate, ...]:
    """What the week that starts with ``week`` may hold: last week's unmet, the month's pending, and what came up for it.

    A month's goal that one of the others already serves is not named again.
    """
    known = tuple(goals)
    waiting = unmet(known, Horizon.WEEK, last_week)
    came_up = tuple(goal for goal in unmet(known, Horizon.WEEK, week) if goal.carried == 0 and goal.origin_id is None)
    of_week = tuple(goal for goal in known if goal.horizon is Horizon.WEEK and goal.period == week)
    served = {goal.origin_id for goal in (*waiting, *of_week)}
    pending = tuple(goal for goal in unmet(known, Horizon.MONTH, month) if goal.id not in served)
    return (
        *(Candidate(goal, Origin.LAST_WEEK) for goal in waiting),
        *(Candidate(goal, Origin.MONTH) for goal in pending),
        *(Candidate(goal, Origin.CAME_UP) for goal in came_up),
    )
