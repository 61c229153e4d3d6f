"""How much of a goal's time is still to be found."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from bot.actions.task_time import minutes_on_tasks
from bot.rules.weeks import first_of_week, last_of_week
from storage.desk import Desk
from storage.records import Goal, Task, TaskState


def minutes_left(desk: Desk, goals: Iterable[Goal], day: date, *, with_open_tasks: bool = False) -> dict[int, int]:
    """Minutes of its estimate that each goal lacks, by its id; goals without an estimate, or that lack nothing, are left out.

    Taken off is what was logged this week on tasks that serve it, and the
    estimate of those that were closed without hours; ``with_open_tasks`` also
    that of those still open, which have a place of their own.
    """
    taken = _taken(desk, day, with_open_tasks)
    left = {goal.id: goal.estimate_minutes - taken.get(goal.id, 0) for goal in goals if goal.estimate_minutes}
    return {id: minutes for id, minutes in left.items() if minutes > 0}


def minutes_done(desk: Desk, goal: Goal) -> int:
    """Minutes logged in the week of a weekly ``goal`` on tasks that serve it, and the estimate of those that were closed without hours."""
    logged = minutes_on_tasks(desk, goal.period, last_of_week(goal.period, desk.person.week_starts))
    return sum(_minutes(task, logged, counted=task.state is TaskState.CLOSED) for task in desk.tasks.for_goal(goal.id))


def _taken(desk: Desk, day: date, with_open_tasks: bool) -> dict[int, int]:
    first, last = first_of_week(day, desk.person.week_starts), last_of_week(day, desk.person.week_starts)
    logged = minutes_on_tasks(desk, first, last)
    taken: dict[int, int] = {}
    for task in desk.tasks.between(first, last):
        counted = task.state is TaskState.CLOSED or (with_open_tasks and task.state is TaskState.OPEN)
        if task.goal_id is not None:
            taken[task.goal_id] = taken.get(task.goal_id, 0) + _minutes(task, logged, counted=counted)
    return taken


def _minutes(task: Task, logged: Mapping[int, int], *, counted: bool) -> int:
    """What the task takes off its goal: its hours, or its estimate where that counts."""
    return logged.get(task.id) or (task.estimate_minutes or 0 if counted else 0)
