"""The plan of a week: goals spread over its days, so that no day overflows and targets are met."""

from __future__ import annotations

from datetime import date, timedelta

from bot.actions.agenda import agenda, free_on, minutes_needed
from bot.actions.naming import category_names
from bot.actions.today import planned_week, today
from bot.actions.wanted import goal_wanted
from bot.language.plan_meaning import MakePlan
from bot.rules.hours import planned_by_category
from bot.rules.planning.week import plan_week
from bot.rules.planning.week_asked import DayRoom, OpenWeek, WeekTarget, Why
from bot.rules.weeks import days_from, first_of_week
from bot.voice.manners import title_text
from bot.voice.replies import Reply, WeekPlanned, WeekShare, WeekShort
from storage.desk import Desk
from storage.records import Horizon, TaskState


def week_plan(desk: Desk, said: MakePlan) -> Reply:
    """Spreads the open goals of the week over its days that are left, and says what cannot be met."""
    first = first_of_week(said.day, desk.person.week_starts) if said.day else planned_week(desk)
    last = first + timedelta(days=6)
    days = days_from(max(first, today(desk)), last)
    rooms = tuple(DayRoom(day, max(0, free_on(desk, day).to_fill - minutes_needed(desk.tasks.open_on(day)))) for day in days)
    # What is still open of an earlier week carries over by itself.
    waiting = (*desk.goals.open_before(Horizon.WEEK, first), *desk.goals.open_for(Horizon.WEEK, first))
    goals = {f"goal {goal.id}": goal for goal in waiting if goal.estimate_minutes}
    wanted = tuple(goal_wanted(desk, key, goal, days[0]) for key, goal in goals.items())
    targets = _targets(desk, first)
    plan = plan_week(OpenWeek(rooms, wanted, tuple(targets.values())))
    names = {key: goal.title for key, goal in goals.items()} | {
        each.key: title_text(category_names(desk)[each.category_id]) for each in targets.values()
    }
    return WeekPlanned(
        first,
        last,
        tuple(WeekShare(share.day, names[share.key], share.minutes) for share in plan.shares),
        tuple(WeekShort(names[short.key], short.minutes, short.why is Why.AT_MOST) for short in plan.short),
        tuple((names[over.key], over.minutes) for over in plan.over),
        plan.proven,
    )


def _targets(desk: Desk, first: date) -> dict[str, WeekTarget]:
    """The week's targets, with what is spent of them, committed, or meant for a day by a task already."""

    last = first + timedelta(days=6)
    spent = desk.stints.minutes_by_category(first, last)
    ahead = [each for each in agenda(desk, max(first, today(desk)), last) if each.starts > desk.now and each.commitment.blocks_hours]
    tasks = [task for task in desk.tasks.between(max(first, today(desk)), last) if task.state is TaskState.OPEN]
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
