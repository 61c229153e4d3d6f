"""Tasks: add, close, drop, reopen, push. Where a goal is named instead, the same is done to the goal."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.actions import goals
from bot.actions.agenda import free_on, minutes_needed
from bot.actions.goal_time import minutes_beside
from bot.actions.hours import item_of
from bot.actions.matching import best_match
from bot.actions.naming import category_id, category_name, category_names
from bot.actions.picking import Picked, all_fitting, pick_of, picked
from bot.actions.refused import Stopped, refused
from bot.actions.routine_done import do_routine, routine_meant
from bot.actions.task_time import as_left
from bot.actions.today import planned_month, planned_week, this_month, this_week, today
from bot.language.meaning import AddTask, Close, Drop, Push, Reopen
from bot.language.pick import Pick
from bot.language.plan_meaning import NotToday
from bot.language.standing_meaning import DropRoutine
from bot.rules.weeks import first_of_next_month, week_after
from bot.voice.replies import LoggedItem, Question, Reply, TaskAdded, TaskChanged, TasksChanged
from storage.desk import Desk
from storage.errors import NotThere
from storage.records import Goal, GoalState, Horizon, Stint, Task, TaskState


def add_task(desk: Desk, said: AddTask) -> Reply:
    """Keeps a new task under its day's next number; one that serves a goal takes the goal's category.

    A button of an earlier day means today.
    """
    day = max(said.day, today(desk))
    goal = _goal_meant(desk, said)
    own = category_id(desk, said.category)
    category = own if own is not None or goal is None else goal.category_id
    number = desk.tasks.next_number(day)
    task = desk.tasks.add(
        Task(0, said.title, day, number, category, goal.id if goal else None, said.estimate_minutes, outdoors=said.outdoors)
    )
    needed = minutes_needed(as_left(desk, desk.tasks.on(day)))
    title = goal.title if goal and goal.title != said.title else None
    return TaskAdded(task, category_name(desk, category), title, free_on(desk, day).to_fill, needed, said.remind_at)


def _goal_meant(desk: Desk, said: AddTask) -> Goal | None:
    if said.goal_id is not None:
        try:
            return desk.goals.get(said.goal_id)
        except NotThere as missing:
            raise refused("button gone") from missing
    if said.goal is None:
        return None
    waiting = (*desk.goals.open_for(Horizon.WEEK, planned_week(desk)), *desk.goals.open_for(Horizon.MONTH, planned_month(desk)))
    goal = best_match(said.goal, [(each.title, each) for each in waiting])
    if goal is None:
        raise refused("no such goal", said.goal)
    return goal


def close(desk: Desk, said: Close) -> Reply:
    """Closes tasks and meets goals, a goal with its last task too where both have one title and nothing is left of it beside the task.

    A routine that is named is done.

    ``minutes`` are logged on the category of the first of them that has one.
    """
    routine = None if said.tasks.goals else routine_meant(desk, said.tasks.words)
    if routine is not None:
        return do_routine(desk, said, routine)
    things = _meant(desk, said)
    logged = _log_with(desk, said, things) if said.minutes else None
    items = tuple(_close_one(desk, thing) for thing in things)
    return TasksChanged("met" if all(isinstance(thing, Goal) for thing in things) else "closed", items, logged=logged)


def _meant(desk: Desk, said: Close | Drop | Push) -> Picked:
    """What is named. Raises Stopped with each as a choice where words fit several open ones equally."""
    exactly = said.tasks.ids or said.tasks.goal_ids
    found = _likelier(desk, said, all_fitting(desk, said.tasks.words, goals=said.tasks.goals)) if said.tasks.words and not exactly else ()
    if len(found) > 1:
        raise Stopped(Question(tuple(replace(said, tasks=pick_of(each)) for each in found)))
    return found or picked(desk, said.tasks)


def _likelier(desk: Desk, said: Close | Drop | Push, fitting: Picked) -> Picked:
    """Those that it is likelier said of: closing of today's tasks, the month of its goals, a day of tasks; all where it is of none."""
    to = said.to if isinstance(said, Push) else None

    def is_likely(each: Task | Goal) -> bool:
        if isinstance(each, Goal):
            return to in ("month", "next month") and each.horizon is Horizon.MONTH
        return isinstance(to, date) or (isinstance(said, Close) and each.day <= today(desk))

    return tuple(filter(is_likely, fitting)) or fitting


def _close_one(desk: Desk, thing: Task | Goal) -> TaskChanged:
    if isinstance(thing, Goal):
        return goals.meet(desk, thing)
    if thing.state is TaskState.CLOSED:
        return TaskChanged(thing.title, thing.state)
    goal = _goal_ending_with(desk, thing)
    left = minutes_beside(desk, goal) if goal is not None and thing.estimate_minutes is not None else 0
    desk.tasks.change(replace(thing, state=TaskState.CLOSED, settled=today(desk)))
    if goal is None or goal.title != thing.title or left:
        return TaskChanged(thing.title, goal_open=goal, goal_left=left)
    goals.meet(desk, goal)
    return TaskChanged(thing.title, goal_met=goal)


def _goal_ending_with(desk: Desk, task: Task) -> Goal | None:
    """The open goal that ``task`` serves, where no other task that does is open."""
    goal = _goal_served(desk, task)
    if goal is None or goal.state is not GoalState.OPEN:
        return None
    others = (each for each in desk.tasks.for_goal(goal.id) if each.id != task.id)
    return None if any(each.state is TaskState.OPEN for each in others) else goal


def _goal_served(desk: Desk, task: Task) -> Goal | None:
    return desk.goals.find(task.goal_id) if task.goal_id is not None else None


def _log_with(desk: Desk, said: Close, things: Picked) -> LoggedItem:
    """Keeps the minutes as a stint of the day said, or today; asks for the category when nothing says it."""
    running = desk.running.current()
    named = (category_id(desk, said.category), *(thing.category_id for thing in things), running.category_id if running else None)
    category = next((each for each in named if each is not None), None)
    if category is None:
        raise Stopped(Question(tuple(replace(said, category=name) for name in category_names(desk).values())))
    tasks = tuple(thing.id for thing in things if isinstance(thing, Task))
    stint = desk.stints.add(Stint(0, category, said.day or today(desk), said.minutes or 0, task_ids=tasks))
    return item_of(desk, stint)


def drop(desk: Desk, said: Drop) -> Reply:
    """Drops tasks and goals for good. Of a routine that is named so nobody can say whether it is to be for good."""
    routine = None if said.tasks.goals else routine_meant(desk, said.tasks.words)
    if routine is not None:
        raise Stopped(Question((NotToday(Pick(words=routine.title)), DropRoutine(routine.title))))
    items = tuple(_drop_one(desk, thing) for thing in _meant(desk, said))
    return TasksChanged("dropped", items)


def _drop_one(desk: Desk, thing: Task | Goal) -> TaskChanged:
    if isinstance(thing, Goal):
        return goals.drop(desk, thing)
    if thing.state is not TaskState.OPEN:
        return TaskChanged(thing.title, thing.state)
    desk.tasks.change(replace(thing, state=TaskState.DROPPED, settled=today(desk)))
    return TaskChanged(thing.title)


def reopen(desk: Desk, said: Reopen) -> Reply:
    """Opens closed or dropped tasks and goals again, with a task the met goal of its title."""
    items = tuple(_reopen_one(desk, thing) for thing in picked(desk, said.tasks, settled=True))
    return TasksChanged("reopened", items)


def _reopen_one(desk: Desk, thing: Task | Goal) -> TaskChanged:
    if isinstance(thing, Goal):
        return goals.reopen(desk, thing)
    if thing.state is TaskState.OPEN:
        return TaskChanged(thing.title, thing.state)
    desk.tasks.change(replace(thing, state=TaskState.OPEN, settled=None))
    goal = _goal_served(desk, thing)
    if goal is None or goal.state is not GoalState.MET or goal.title != thing.title:
        return TaskChanged(thing.title)
    goals.reopen(desk, goal)
    return TaskChanged(thing.title, goal_reopened=goal)


def push(desk: Desk, said: Push) -> Reply:
    """Moves tasks and goals to a day, to next week's goals, to this week's or to a month's."""
    things = _meant(desk, said)
    items = tuple(_push_one(desk, thing, said.to, instead=said.instead) for thing in things)
    goals_only = all(isinstance(thing, Goal) for thing in things) and not isinstance(said.to, date)
    of_month = all(isinstance(thing, Goal) and thing.horizon is Horizon.MONTH for thing in things)
    return TasksChanged("carried" if goals_only else "pushed", items, "next month" if of_month and said.to == "month" else said.to)


def _push_one(desk: Desk, thing: Task | Goal, to: date | str, *, instead: bool) -> TaskChanged:
    if isinstance(thing, Goal):
        own = goals.own_tasks(desk, thing) if isinstance(to, date) else ()
        if own:
            return _push_one(desk, own[0], to, instead=instead)
        return goals.put_off(desk, thing) if instead else goals.push(desk, thing, to)
    if thing.state is not TaskState.OPEN:
        return TaskChanged(thing.title, thing.state)
    if thing.day == to:
        return TaskChanged(thing.title, "there")
    if isinstance(to, date):
        desk.tasks.change(pushed(thing, to, desk.tasks.next_number(to)))
    else:
        _becomes_goal(desk, thing, to)
    return TaskChanged(thing.title)


def pushed(task: Task, to: date, number: int) -> Task:
    """The task on its new day, under a new number, remembering the day it came from."""
    return replace(task, day=to, number=number, pushes=(*task.pushes, task.day))


def _becomes_goal(desk: Desk, task: Task, to: str) -> None:
    """The task waits as a goal of a week or of the month; one that serves a goal pushes that goal instead."""
    goal = _goal_served(desk, task)
    (left,) = as_left(desk, (task,))
    desk.tasks.remove(task.id)
    if goal is not None and goal.state is GoalState.OPEN:
        goals.push(desk, goal, to)
        return
    weeks = {"week": week_after(this_week(desk)), "this week": this_week(desk)}
    months = {"month": planned_month(desk), "next month": first_of_next_month(this_month(desk))}
    horizon, period = (Horizon.WEEK, weeks[to]) if to in weeks else (Horizon.MONTH, months[to])
    section = goals.section_of(desk, task.category_id, None)
    desk.goals.add(Goal(0, task.title, horizon, period, section, task.category_id, left.estimate_minutes))
