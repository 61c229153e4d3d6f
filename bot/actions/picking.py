"""Which tasks and goals a reply or a button names."""

from __future__ import annotations

from bot.actions.matching import best_match
from bot.actions.open_tasks import numbered, open_for, tasks_for
from bot.actions.refused import refused
from bot.actions.today import planned_month, planned_week, this_month, this_week, today
from bot.language.pick import Pick
from bot.rules.weeks import week_after
from storage.desk import Desk
from storage.errors import NotThere
from storage.records import Goal, GoalState, Horizon, Task, TaskState

Picked = tuple[Task | Goal, ...]
OPEN = (TaskState.OPEN, GoalState.OPEN)


def picked(desk: Desk, pick: Pick, *, settled: bool = False) -> Picked:
    """The tasks and goals that ``pick`` names, in its order; words name open ones first, or ``settled`` ones.

    Raises Stopped when one of them is not there.
    """
    if pick.ids or pick.goal_ids:
        return _by_id(desk, pick)
    if pick.all:
        return _open_goals(desk) if pick.goals else _all_open(desk)
    if pick.numbers:
        return tuple(numbered(desk, number) for number in pick.numbers)
    if pick.words:
        return (_named(desk, pick.words, settled=settled, goals=pick.goals),)
    return (_only_one(desk),)


def _by_id(desk: Desk, pick: Pick) -> Picked:
    try:
        tasks = tuple(desk.tasks.get(id) for id in pick.ids)
        goals = tuple(desk.goals.get(id) for id in pick.goal_ids)
    except NotThere as missing:
        raise refused("button gone") from missing
    return (*tasks, *goals)


def _all_open(desk: Desk) -> Picked:
    tasks = open_for(desk, today(desk))
    if not tasks:
        raise refused("no tasks open")
    return tasks


def _open_goals(desk: Desk) -> Picked:
    goals = desk.goals.open_for(Horizon.WEEK, this_week(desk))
    if not goals:
        raise refused("no goals open")
    return goals


def _only_one(desk: Desk) -> Task:
    """The one open task of today, when nothing names one."""
    tasks = open_for(desk, today(desk))
    if len(tasks) != 1:
        raise refused("no such task" if tasks else "no tasks open", ", ".join(task.title for task in tasks))
    return tasks[0]


def _named(desk: Desk, words: str, *, settled: bool, goals: bool) -> Task | Goal:
    likeliest = sorted(nameable(desk, goals=goals), key=lambda thing: (thing.state in OPEN) == settled)
    found = best_match(words, [(each.title, each) for each in likeliest])
    if found is None:
        raise refused("no such goal" if goals else "no such task", words)
    return found


def nameable(desk: Desk, *, goals: bool = False) -> Picked:
    """What words can name, the likeliest first: tasks of today and left open before it, later ones, goals of the week, of the month.

    The goals alone with ``goals``.
    """
    return _goals(desk) if goals else (*_tasks(desk), *_goals(desk))


def _tasks(desk: Desk) -> tuple[Task, ...]:
    day = today(desk)
    return (*sorted(tasks_for(desk, day), key=lambda task: task.state is not TaskState.OPEN), *desk.tasks.open_after(day))


def _goals(desk: Desk) -> tuple[Goal, ...]:
    weeks = dict.fromkeys((this_week(desk), planned_week(desk), week_after(this_week(desk))))
    months = dict.fromkeys((this_month(desk), planned_month(desk)))
    of_weeks = (goal for week in weeks for goal in desk.goals.for_period(Horizon.WEEK, week))
    return (*of_weeks, *(goal for month in months for goal in desk.goals.for_period(Horizon.MONTH, month)))


def all_fitting(desk: Desk, words: str, *, goals: bool = False) -> Picked:
    """Every open task and goal that has all the words in its title, likeliest first and each title once; one that has no others alone."""
    wanted = words.lower().split()
    of_title = {each.title.lower(): each for each in reversed(nameable(desk, goals=goals)) if each.state in OPEN}
    if words.lower() in of_title:
        return (of_title[words.lower()],)
    return tuple(each for title, each in reversed(of_title.items()) if set(wanted) <= set(title.split()))


def pick_of(thing: Task | Goal) -> Pick:
    """That one and no other, which a button says by its title."""
    return Pick(words=thing.title, goal_ids=(thing.id,)) if isinstance(thing, Goal) else Pick(words=thing.title, ids=(thing.id,))


def names_open_task(desk: Desk, words: str) -> bool:
    """Whether the words name a task that is open, today or later."""
    tasks = (*open_for(desk, today(desk)), *desk.tasks.open_after(today(desk)))
    return best_match(words, [(each.title, each) for each in tasks]) is not None
