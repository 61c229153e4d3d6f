"""The plan of a week: goals spread over its days, so that no day overflows and targets are met."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.goal_time import minutes_left
from bot.actions.naming import category_names
from bot.actions.rooms import rooms_on
from bot.actions.today import planned_week, today
from bot.actions.wanted import goal_wanted
from bot.language.plan_meaning import MakePlan
from bot.rules.hours import planned_by_category
from bot.rules.planning.remedies import Without
from bot.rules.planning.spreading import spread
from bot.rules.planning.week import plan_week
from bot.rules.planning.week_asked import OpenWeek, Short, WeekTarget, Why
from bot.rules.planning.week_remedies import WeekRemedy, week_remedy
from bot.rules.weeks import days_from, first_of_week
from bot.voice.manners import title_text
from bot.voice.replies import Reply, WeekPlanned, WeekShare, WeekShort
from storage.desk import Desk
from storage.records import Horizon

MOST_ADVISED = 3
"""Goals that do not fit and are told with what would make room; any more are told alone."""


def week_plan(desk: Desk, said: MakePlan) -> Reply:
    """Spreads the open goals of the week over its days that are left, and says what cannot be met."""
    first = first_of_week(said.day, desk.person.week_starts) if said.day else planned_week(desk)
    last = first + timedelta(days=6)
    days = days_from(max(first, today(desk)), last)
    rooms = rooms_on(desk, days)
    filled = rooms_on(desk, days, filled=True)
    # What is still open of an earlier week carries over by itself.
    waiting = (*desk.goals.open_before(Horizon.WEEK, first), *desk.goals.open_for(Horizon.WEEK, first))
    left = minutes_left(desk, waiting, first, with_open_tasks=True)
    goals = {f"goal {goal.id}": goal for goal in waiting if goal.id in left}
    wanted = tuple(goal_wanted(desk, key, goal, left[goal.id], days[0]) for key, goal in goals.items())
    targets = _targets(desk, first)
    week = OpenWeek(rooms, wanted, tuple(targets.values()))
    plan = plan_week(week)
    names = {key: goal.title for key, goal in goals.items()} | {
        each.key: title_text(category_names(desk)[each.category_id]) for each in targets.values()
    }
    short = tuple(
        _short(each, week_remedy(week, replace(week, days=filled), each) if number < MOST_ADVISED else None, names)
        for number, each in enumerate(plan.short)
    )
    shares = tuple(WeekShare(share.day, names[share.key], share.minutes) for share in spread(week, plan.shares))
    over = tuple((names[each.key], each.minutes) for each in plan.over)
    all_placed = not goals and any(goal.estimate_minutes for goal in waiting)
    return WeekPlanned(first, last, shares, short, over, plan.proven, all_placed)


def _short(short: Short, remedy: WeekRemedy | None, names: dict[str, str]) -> WeekShort:
    named = Without(names[remedy.key]) if isinstance(remedy, Without) else remedy
    return WeekShort(names[short.key], short.minutes, short.why is Why.AT_MOST, named)


def _targets(desk: Desk, first: date) -> dict[str, WeekTarget]:
    """The week's targets, with what is spent of them, committed, or meant for a day by a task already."""

    last = first + timedelta(days=6)
    spent = desk.stints.minutes_by_category(first, last)
    ahead = [each for each in agenda(desk, max(first, today(desk)), last) if each.starts > desk.now and each.commitment.blocks_hours]
    tasks = desk.tasks.open_between(max(first, today(desk)), last)
    committed = planned_by_category(ahead, tasks)
    return {
        f"target {each.category_id}": WeekTarget(
            f"target {each.category_id}",
            each.category_id,
            each.at_least_minutes,
            each.at_most_minutes,
            spent.get(each.category_id, 0) + committed.get(each.category_id, 0),
        )
        for each in desk.targets.in_force(first)
    }
