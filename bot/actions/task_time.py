"""How much of a task's estimate is still to be found: less what was logged on it, on whatever days."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, timedelta

from bot.actions.today import today
from storage.desk import Desk
from storage.records import Task

NOTED_LATE = timedelta(days=7)
"""Hours may be told of days before the task was noted. Common practice, no source."""


def minutes_on_tasks(desk: Desk, first: date, last: date) -> Mapping[int, int]:
    """Minutes logged from the first to the last day on each task that has some, by its id; hours on several tasks are the first's."""
    minutes: Counter[int] = Counter()
    for work in desk.stints.work_between(first, last):
        minutes[work.task_ids[0]] += work.minutes
    return minutes


def minutes_spent(desk: Desk, tasks: Iterable[Task]) -> Mapping[int, int]:
    """Minutes logged so far on each of these tasks that has some, by its id."""
    began = min((day for task in tasks for day in (task.day, *task.pushes)), default=None)
    return {} if began is None else minutes_on_tasks(desk, min(began, today(desk)) - NOTED_LATE, today(desk))


def as_left(desk: Desk, tasks: Iterable[Task]) -> tuple[Task, ...]:
    """The tasks, each with what is left of its estimate in the estimate's place: none of one that is used up."""
    given = tuple(tasks)
    spent = minutes_spent(desk, given) if any(task.estimate_minutes for task in given) else {}
    return tuple(replace(task, estimate_minutes=_left(task, spent[task.id])) if spent.get(task.id) else task for task in given)


def _left(task: Task, spent: int) -> int | None:
    return None if task.estimate_minutes is None else max(task.estimate_minutes - spent, 0)
