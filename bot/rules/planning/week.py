"""The plan of one week."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bot.rules.planning.asked import STEP_MINUTES
from bot.rules.planning.laying_out import slots_for
from bot.rules.planning.sharing import MOST_CASES, share_out
from bot.rules.planning.week_asked import OpenWeek, Over, Share, Short, WeekGoal, WeekTarget, Why
from bot.rules.planning.week_board import Lack, Portion, Shares, WeekBoard
from bot.rules.planning.week_objective import WeekObjective, measured_week


@dataclass(frozen=True, slots=True)
class WeekPlan:
    """What each day has of which goal, in order of days and then of worth; what is not met in full; and what is over already.

    ``proven`` unless the week has so many goals and so little room that the
    search for something better was given up: see ``sharing``.
    """

    shares: tuple[Share, ...]
    short: tuple[Short, ...]
    over: tuple[Over, ...]
    objective: WeekObjective
    proven: bool = True


def plan_week(week: OpenWeek, most_cases: int = MOST_CASES) -> WeekPlan:
    """The best plan of ``week`` by the objective of ``week_objective``, exactly unless it says otherwise; the same for the same week."""
    board = board_of(week)
    shares = share_out(board, most_cases)
    return WeekPlan(
        shares=tuple(sorted(_shares(week, board, shares), key=lambda share: share.day)),
        short=(*_short_goals(week, board, shares), *_short_targets(week, board, shares)),
        over=tuple(_over(week.targets)),
        objective=measured_week(board, shares),
        proven=shares.proven,
    )


def board_of(week: OpenWeek) -> WeekBoard:
    """The week in quarters of an hour."""
    return WeekBoard(
        rooms=tuple(max(0, room.minutes) // STEP_MINUTES for room in week.days),
        portions=tuple(_portion(week, index, goal) for index, goal in enumerate(week.goals)),
        lacks=tuple(_lack(target) for target in week.targets),
    )


def _portion(week: OpenWeek, index: int, goal: WeekGoal) -> Portion:
    days = [room.day for room in week.days]
    may = [number for number, day in enumerate(days) if (goal.first_day or day) <= day <= (goal.last_day or day)]
    wants = slots_for(goal.minutes)
    categories = [target.category_id for target in week.targets]
    return Portion(
        wants=wants,
        value=goal.value,
        weight=goal.value * (len(week.goals) + 1) + len(week.goals) - index,
        smallest=wants if goal.smallest_minutes is None else min(wants, slots_for(goal.smallest_minutes)),
        first=may[0] if may else 0,
        last=may[-1] if may else -1,
        category=categories.index(goal.category_id) if goal.category_id in categories else None,
    )


def _lack(target: WeekTarget) -> Lack:
    most = target.at_most_minutes
    return Lack(
        lacks=slots_for(max(0, (target.at_least_minutes or 0) - target.settled_minutes)),
        may_have=None if most is None else max(0, most - target.settled_minutes) // STEP_MINUTES,
    )


def _shares(week: OpenWeek, board: WeekBoard, shares: Shares) -> Iterator[Share]:
    for (index, day), quarters in sorted(shares.goals.items(), key=lambda each: -board.portions[each[0][0]].weight):
        yield Share(week.goals[index].key, week.days[day].day, quarters * STEP_MINUTES)
    for (index, day), quarters in shares.targets.items():
        yield Share(week.targets[index].key, week.days[day].day, quarters * STEP_MINUTES)


def _short_goals(week: OpenWeek, board: WeekBoard, shares: Shares) -> Iterator[Short]:
    for index, (goal, portion) in enumerate(zip(week.goals, board.portions, strict=True)):
        missing = portion.wants - shares.of_goal(index)
        if missing:
            capped = portion.category is not None and shares.of_category(board, portion.category) == board.lacks[portion.category].may_have
            yield Short(goal.key, missing * STEP_MINUTES, Why.AT_MOST if capped else Why.ROOM)


def _short_targets(week: OpenWeek, board: WeekBoard, shares: Shares) -> Iterator[Short]:
    for index, (target, lack) in enumerate(zip(week.targets, board.lacks, strict=True)):
        missing = lack.lacks - shares.of_category(board, index)
        if missing > 0:
            capped = lack.may_have is not None and lack.may_have < lack.lacks
            yield Short(target.key, missing * STEP_MINUTES, Why.AT_MOST if capped else Why.ROOM)


def _over(targets: tuple[WeekTarget, ...]) -> Iterator[Over]:
    for target in targets:
        if target.at_most_minutes is not None and target.settled_minutes > target.at_most_minutes:
            yield Over(target.key, target.settled_minutes - target.at_most_minutes)
