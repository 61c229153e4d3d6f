"""How much of a goal's time is still to be found."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date

from bot.actions.task_time import as_left, minutes_on_tasks
from bot.rules.weeks import first_of_week, last_of_week
from storage.desk import Desk
from storage.records import Goal, Horizon, Task, TaskState


def minutes_left(desk: Desk, goals: Iterable[Goal], day: date, *, with_open_tasks: bool = False) -> dict[int, int]:
    """Minutes of its estimate that each goal lacks, by its id; goals without an estimate, or that lack nothing, are left out.

    Taken off is what was logged this week on tasks that serve it or with its title for a note, and the
    estimate of those that were closed without hours; ``with_open_tasks`` also
    what those still open have left, which has a place of its own.
    """
    goals = tuple(goals)
    taken = _taken(desk, day, with_open_tasks)
    noted = _minutes_noted(desk, *_week_of(desk, day)) if goals else {}
    left = {
        goal.id: goal.estimate_minutes - taken.get(goal.id, 0) - noted.get(goal.title.lower(), 0) for goal in goals if goal.estimate_minutes
    }
    return {id: minutes for id, minutes in left.items() if minutes > 0}


def minutes_done(desk: Desk, goal: Goal) -> int:
    """Minutes logged in the week of a weekly ``goal`` for it, and the estimate of tasks that serve it and were closed without hours."""
    last = last_of_week(goal.period, desk.person.week_starts)
    logged = minutes_on_tasks(desk, goal.period, last)
    noted = _minutes_noted(desk, goal.period, last).get(goal.title.lower(), 0)
    return noted + sum(_minutes(task, logged, counted=task.state is TaskState.CLOSED) for task in desk.tasks.for_goal(goal.id))


def minutes_beside(desk: Desk, goal: Goal) -> int:
    """Minutes of the estimate of a weekly ``goal`` that neither what was done for it nor its open tasks have; 0 without an estimate."""
    if goal.horizon is Horizon.MONTH:
        return 0
    return minutes_left(desk, (goal,), goal.period, with_open_tasks=True).get(goal.id, 0)


def goal_noted(desk: Desk, note: str | None, day: date) -> Goal | None:
    """The open goal of the week of ``day`` whose title the note is."""
    open_then = desk.goals.open_for(Horizon.WEEK, _week_of(desk, day)[0]) if note else ()
    return next((each for each in open_then if note is not None and each.title.lower() == note.lower()), None)


def _week_of(desk: Desk, day: date) -> tuple[date, date]:
    return first_of_week(day, desk.person.week_starts), last_of_week(day, desk.person.week_starts)


def _minutes_noted(desk: Desk, first: date, last: date) -> Mapping[str, int]:
    """Minutes of hours that have a note and no task, by the note in lower case."""
    minutes: Counter[str] = Counter()
    for stint in desk.stints.between(first, last):
        if stint.note and not stint.task_ids:
            minutes[stint.note.lower()] += stint.minutes
    return minutes


def _taken(desk: Desk, day: date, with_open_tasks: bool) -> Mapping[int | None, int]:
    first, last = _week_of(desk, day)
    logged = minutes_on_tasks(desk, first, last)
    still_open = [task for task in desk.tasks.open() if task.goal_id is not None] if with_open_tasks else []
    taken: Counter[int | None] = Counter()
    for task in {each.id: each for each in (*desk.tasks.between(first, last), *still_open)}.values():
        taken[task.goal_id] += _minutes(task, logged, counted=task.state is TaskState.CLOSED)
    for task in as_left(desk, still_open):
        taken[task.goal_id] += task.estimate_minutes or 0
    return taken


def _minutes(task: Task, logged: Mapping[int, int], *, counted: bool) -> int:
    """What the task takes off its goal: its hours, or its estimate where that counts."""
    return logged.get(task.id) or (task.estimate_minutes or 0 if counted else 0)
