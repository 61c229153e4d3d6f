"""What wants a place in a day's plan: its routines, its tasks, and its share of the week's goals."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from bot.actions.agenda import busy_on
from bot.actions.estimating import ratios
from bot.actions.goal_time import minutes_left
from bot.actions.open_tasks import left_over, open_for
from bot.actions.rooms import fixed_of, planned_minutes, rooms_on, window_of, window_on
from bot.actions.routine_days import done_between
from bot.actions.skies import forecast_for
from bot.actions.task_time import minutes_spent
from bot.actions.today import today
from bot.rules.hours import spent_by_category
from bot.rules.planning import asked as planner
from bot.rules.planning.skies import skies_of
from bot.rules.planning.week import plan_week
from bot.rules.planning.week_asked import OpenWeek, WeekGoal
from bot.rules.planning.worth import ROUTINE, task_value
from bot.rules.routines import falls_on
from bot.rules.spans import Span
from bot.rules.weeks import days_from, first_of_week, last_of_week
from storage.desk import Desk
from storage.records import Block, Goal, Horizon, Task

UNSPLIT = 60
"""Minutes up to which a task stays in one piece; longer ones may be split. Common practice, no source."""

SMALLEST = 30
PRESSING_DAYS = 2
"""A goal presses when this many days of its week are left, or when it was carried before."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """What the planner is asked for, and the block it becomes; the block's times are filled in by the plan."""

    wanted: planner.Wanted
    block: Block


def open_day(desk: Desk, day: date, kept: tuple[Block, ...], candidates: tuple[Candidate, ...]) -> planner.OpenDay:
    """The day as the planner sees it: what is left of the waking window, what is fixed, the sky, and what is kept."""
    window = window_on(desk, day)
    forecast = forecast_for(desk)
    skies = skies_of(forecast, window) if forecast else ()
    pinned = tuple(planner.Block(f"kept {block.id}", Span(block.starts, block.ends)) for block in kept)
    fixed = fixed_of(desk, busy_on(desk, day))
    return planner.OpenDay(window, fixed, tuple(each.wanted for each in candidates), skies, pinned, desk.person.free_share)


def candidates_for(desk: Desk, day: date, kept: tuple[Block, ...]) -> tuple[Candidate, ...]:
    """Everything that wants a place on ``day`` and has none among the blocks that are kept."""
    tasks, routines, goals = ({getattr(block, f"{name}_id") for block in kept} for name in ("task", "routine", "goal"))
    found = (*_routines(desk, day), *_tasks(desk, day), *_goals(desk, day))
    return tuple(
        each
        for each in found
        if not (
            (each.block.task_id and each.block.task_id in tasks)
            or (each.block.routine_id and each.block.routine_id in routines)
            or (each.block.goal_id and each.block.goal_id in goals)
        )
    )


def _routines(desk: Desk, day: date) -> Iterator[Candidate]:
    done = done_between(desk, day, day)
    for routine in desk.routines.all():
        if (routine.id, day) not in done and falls_on(routine, day):
            block = _block(desk, day, routine.title, routine.category_id, routine_id=routine.id)
            wanted = planner.Wanted(f"routine {routine.id}", routine.minutes, ROUTINE, planner.Sort.ROUTINE, window_of(desk, routine, day))
            yield Candidate(wanted, block)


def _tasks(desk: Desk, day: date) -> Iterator[Candidate]:
    behind = _behind_target(desk, day)
    tasks = (*open_for(desk, day), *left_over(desk, day))
    learned, spent = ratios(desk, (task.category_id for task in tasks)), minutes_spent(desk, tasks)
    for task in tasks:
        minutes = planned_minutes(task, learned[task.category_id], spent.get(task.id, 0))
        if not minutes:
            continue
        value = task_value(pressing=_presses(desk, task, day), pushes=len(task.pushes), behind_target=task.category_id in behind)
        smallest = SMALLEST if minutes > UNSPLIT else None
        wanted = planner.Wanted(f"task {task.id}", minutes, value, smallest_minutes=smallest, outdoors=task.outdoors)
        yield Candidate(wanted, _block(desk, day, task.title, task.category_id, task_id=task.id))


def _presses(desk: Desk, task: Task, day: date) -> bool:
    goal = desk.goals.find(task.goal_id) if task.goal_id is not None else None
    return goal is not None and presses(desk, goal, day)


def presses(desk: Desk, goal: Goal, day: date) -> bool:
    """Whether the goal was carried before, or its week is nearly over."""
    left = (last_of_week(day, desk.person.week_starts) - day).days
    return goal.carried > 0 or left < PRESSING_DAYS


def _behind_target(desk: Desk, day: date) -> frozenset[int]:
    """The categories that have less than they should have at least this week."""
    week = first_of_week(day, desk.person.week_starts)
    spent = spent_by_category(desk.stints.between(week, day))
    targets = desk.targets.in_force(week)
    return frozenset(each.category_id for each in targets if spent.get(each.category_id, 0) < (each.at_least_minutes or 0))


def _goals(desk: Desk, day: date) -> Iterator[Candidate]:
    """The day's share of what no task has of each goal yet, from spreading it over what is left of the week."""
    waiting = _measured(desk, day)
    left = minutes_left(desk, waiting, day, with_open_tasks=True)
    goals = {f"goal {goal.id}": goal for goal in waiting if goal.id in left}
    if not goals:
        return
    # A day to come has what the days before it leave.
    first = min(day, max(today(desk), first_of_week(day, desk.person.week_starts)))
    days = days_from(first, last_of_week(day, desk.person.week_starts))
    rooms = rooms_on(desk, days)
    wanted = tuple(goal_wanted(desk, key, goal, left[goal.id], day) for key, goal in goals.items())
    for share in plan_week(OpenWeek(rooms, wanted)).shares:
        if share.day == day and share.key in goals:
            goal = goals[share.key]
            value = task_value(pressing=presses(desk, goal, day), pushes=0, behind_target=False)
            smallest = SMALLEST if share.minutes > UNSPLIT else None
            block = _block(desk, day, goal.title, goal.category_id, goal_id=goal.id)
            yield Candidate(planner.Wanted(share.key, share.minutes, value, smallest_minutes=smallest), block)


def _measured(desk: Desk, day: date) -> tuple[Goal, ...]:
    """The open goals of the week of ``day``, but those served by an open task without an estimate: nobody knows what that leaves."""
    week = first_of_week(day, desk.person.week_starts)
    unknown = {task.goal_id for task in desk.tasks.open() if task.estimate_minutes is None}
    return tuple(goal for goal in desk.goals.open_for(Horizon.WEEK, week) if goal.id not in unknown)


def goal_wanted(desk: Desk, key: str, goal: Goal, minutes: int, day: date) -> WeekGoal:
    """What the week's planner is asked for a goal that lacks ``minutes``, as of ``day``."""
    value = task_value(pressing=presses(desk, goal, day), pushes=0, behind_target=False)
    return WeekGoal(key, minutes, value, goal.category_id)


def _block(
    desk: Desk,
    day: date,
    title: str,
    category_id: int | None,
    *,
    task_id: int | None = None,
    routine_id: int | None = None,
    goal_id: int | None = None,
) -> Block:
    """A block without its times yet."""
    return Block(0, day, desk.now, desk.now, title, category_id, task_id, routine_id, goal_id)
