"""Goals of the week and of the month: add, meet, drop, reopen, push, carry."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.actions.goal_time import minutes_done
from bot.actions.naming import category_id, category_name
from bot.actions.refused import refused
from bot.actions.today import planned_month, planned_week, this_month, this_week, today
from bot.language.meaning import AddGoal
from bot.rules.carrying import Carried, carry, put_to_month, taken_into_week
from bot.rules.weeks import first_of_month, first_of_next_month, week_after
from bot.voice.replies import GoalAdded, Reply, TaskChanged
from storage.desk import Desk
from storage.records import Goal, GoalState, Horizon, Task, TaskState


def add_goal(desk: Desk, said: AddGoal) -> Reply:
    """Keeps a goal for the week that is being planned, the current month, or a later one that was said."""
    category = category_id(desk, said.category)
    horizon = Horizon(said.horizon)
    period = said.period or (planned_week(desk) if horizon is Horizon.WEEK else planned_month(desk))
    section = section_of(desk, category, said.section)
    goal = desk.goals.add(Goal(0, said.title, horizon, period, section, category, said.estimate_minutes))
    return GoalAdded(goal, category_name(desk, category))


def section_of(desk: Desk, category: int | None, said: str | None) -> str:
    """The section said, else that of the category, else the person's first one."""
    sections = [section.name for section in desk.sections.all()]
    if said is not None:
        if said not in sections:
            raise refused("no such section", said, tuple(sections))
        return said
    return desk.categories.get(category).section if category is not None else sections[0]


def meet(desk: Desk, goal: Goal) -> TaskChanged:
    """Meets an open goal, the tasks of its title, and the month's goal it came from where it has the same title."""
    if goal.state is not GoalState.OPEN:
        return TaskChanged(goal.title, goal.state)
    desk.goals.change(replace(goal, state=GoalState.MET))
    origin = _origin_of(desk, goal, GoalState.OPEN)
    if origin is not None:
        desk.goals.change(replace(origin, state=GoalState.MET))
    return _with_its_tasks(desk, goal, TaskState.CLOSED)


def _origin_of(desk: Desk, goal: Goal, state: GoalState) -> Goal | None:
    """The month's goal of the same title that ``goal`` came from, where it stands so."""
    origin = desk.goals.find(goal.origin_id) if goal.origin_id is not None else None
    if origin is None or origin.horizon is not Horizon.MONTH or origin.title != goal.title:
        return None
    return origin if origin.state is state else None


def drop(desk: Desk, goal: Goal) -> TaskChanged:
    """Drops an open goal for good, and the tasks of its title."""
    if goal.state is not GoalState.OPEN:
        return TaskChanged(goal.title, goal.state)
    desk.goals.change(replace(goal, state=GoalState.DROPPED))
    return _with_its_tasks(desk, goal, TaskState.DROPPED)


def own_tasks(desk: Desk, goal: Goal) -> tuple[Task, ...]:
    """The open tasks that are the goal itself on some day, by its own title."""
    return tuple(task for task in desk.tasks.for_goal(goal.id) if task.state is TaskState.OPEN and task.title == goal.title)


def _with_its_tasks(desk: Desk, goal: Goal, state: TaskState) -> TaskChanged:
    """The goal settled, and with it the open tasks of its own title; what else serves it stays open and is told."""
    serving = [task for task in desk.tasks.for_goal(goal.id) if task.state is TaskState.OPEN]
    along = tuple(task for task in serving if task.title == goal.title)
    for task in along:
        desk.tasks.change(replace(task, state=state, settled=today(desk)))
    return TaskChanged(goal.title, along=along, left=tuple(task for task in serving if task.title != goal.title))


def reopen(desk: Desk, goal: Goal) -> TaskChanged:
    """Opens a met or dropped goal again, and the month's goal that was met with it; a carried one goes on elsewhere and stays as it is."""
    if goal.state not in (GoalState.MET, GoalState.DROPPED):
        return TaskChanged(goal.title, goal.state)
    desk.goals.change(replace(goal, state=GoalState.OPEN))
    origin = _origin_of(desk, goal, GoalState.MET)
    if origin is not None and goal.state is GoalState.MET:
        desk.goals.change(replace(origin, state=GoalState.OPEN))
    return TaskChanged(goal.title)


def push(desk: Desk, goal: Goal, to: date | str) -> TaskChanged:
    """Carries an open goal to the next week, puts it to a month or carries it to the next one, or makes a task of it for a day."""
    if goal.state is not GoalState.OPEN:
        return TaskChanged(goal.title, goal.state)
    if isinstance(to, date):
        desk.tasks.add(Task(0, goal.title, to, desk.tasks.next_number(to), goal.category_id, goal.id, goal.estimate_minutes))
    elif to == "this week":
        return _to_this_week(desk, goal)
    elif to == "week":
        return _to_next_week(desk, goal)
    elif goal.horizon is Horizon.WEEK and to == "next month":
        _carried(desk, put_to_month(goal, first_of_next_month(this_month(desk))))
    elif goal.horizon is Horizon.WEEK:
        _carried(desk, put_to_month(goal, first_of_month(week_after(goal.period))))
    elif goal.period <= this_month(desk):
        _carried(desk, carry(goal, max(planned_month(desk), first_of_next_month(goal.period))))
    else:
        return TaskChanged(goal.title, "there")
    return TaskChanged(goal.title)


def put_off(desk: Desk, goal: Goal) -> TaskChanged:
    """An open goal of a week is for the next one instead, and so is not carried; one of the month is pushed as any other."""
    if goal.state is not GoalState.OPEN or goal.horizon is Horizon.MONTH:
        return push(desk, goal, "week")
    desk.goals.change(replace(goal, period=max(week_after(goal.period), week_after(this_week(desk)))))
    return TaskChanged(goal.title)


def _to_this_week(desk: Desk, goal: Goal) -> TaskChanged:
    """A month's goal comes into this week; one that waits for a later week comes forward."""
    week = this_week(desk)
    if _is_served(desk, goal, week) or (goal.horizon is Horizon.WEEK and goal.period <= week):
        return TaskChanged(goal.title, "there")
    if goal.horizon is Horizon.MONTH:
        _to_week(desk, goal, week)
    else:
        desk.goals.change(replace(goal, period=week))
    return TaskChanged(goal.title)


def _to_next_week(desk: Desk, goal: Goal) -> TaskChanged:
    """A goal is carried to the next week once: one that waits for it, or is served by one that does, is there already."""
    week = week_after(this_week(desk))
    if _is_served(desk, goal, week) or (goal.horizon is Horizon.WEEK and goal.period >= week):
        return TaskChanged(goal.title, "there")
    _to_week(desk, goal, week)
    return TaskChanged(goal.title)


def _is_served(desk: Desk, goal: Goal, week: date) -> bool:
    return any(each.origin_id == goal.id for each in desk.goals.open_for(Horizon.WEEK, week))


def _to_week(desk: Desk, goal: Goal, week: date) -> None:
    """A month's goal stays and is served by one of the week; a week's goal is carried on."""
    if goal.horizon is Horizon.MONTH:
        desk.goals.add(taken_into_week(goal, week))
    else:
        _carried(desk, carry(goal, max(week_after(goal.period), this_week(desk))))


def _carried(desk: Desk, change: Carried) -> Goal:
    """Keeps both goals; the open tasks that served the old one serve the new one, whose estimate is what is left of it."""
    desk.goals.change(change.old)
    new = desk.goals.add(replace(change.new, estimate_minutes=_left(desk, change.old)))
    for task in desk.tasks.for_goal(change.old.id):
        if task.state is TaskState.OPEN:
            desk.tasks.change(replace(task, goal_id=new.id))
    return new


def _left(desk: Desk, goal: Goal) -> int | None:
    """What a goal still wants of its estimate; None where it had none, or has none left and nobody knows what more it takes."""
    if goal.estimate_minutes is None or goal.horizon is Horizon.MONTH:
        return goal.estimate_minutes
    return max(goal.estimate_minutes - minutes_done(desk, goal), 0) or None


def carry_untouched(desk: Desk) -> tuple[Goal, ...]:
    """Carries every goal of earlier weeks and months that is still open into the current one; gives the new ones.

    Source: an unmet goal is carried unless put back or dropped (common practice, no source).
    """
    periods = ((Horizon.WEEK, this_week(desk)), (Horizon.MONTH, this_month(desk)))
    return tuple(_carried(desk, carry(goal, period)) for horizon, period in periods for goal in desk.goals.open_before(horizon, period))
