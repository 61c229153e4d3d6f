"""Answers about tasks and goals."""

from __future__ import annotations

from datetime import date, timedelta

from bot.language.meaning import AddCommitment, AddTask, Close, Drop, Push, Reopen, Several, Undo
from bot.language.pick import Pick
from bot.voice.hours_said import stint_line
from bot.voice.manners import Manners, count_text, hours_text, listed, month_text, title_text
from bot.voice.message import Message, Page, Tap, clipped
from bot.voice.replies import GoalAdded, TaskAdded, TasksChanged
from storage.records import Goal, Horizon, Task, TaskState

DONE_WORDS = {"closed": "Closed", "met": "Met", "dropped": "Dropped", "reopened": "Open again", "pushed": "Pushed", "carried": "Carried"}
MONTHS = "the month's"
STANDS = {"open": "open", "closed": "closed", "dropped": "dropped", "met": "met", "carried": "carried on", "there": "there", "done": "done"}


def tasks_changed(reply: TasksChanged, manners: Manners) -> Message:
    """What became of the tasks and goals."""
    page = Page()
    fresh = [item.title for item in reply.items if item.stands is None]
    if fresh:
        page.line(f"{DONE_WORDS[reply.verb]}{_target_words(reply.to, manners)}: {listed(fresh)}.")
    for stands in dict.fromkeys(item.stands for item in reply.items if item.stands is not None):
        titles = [item.title for item in reply.items if item.stands == stands]
        page.line(f"{listed(titles)} {_stands_words(stands, len(titles))} already. Nothing changed.")
    met = [item.goal_met for item in reply.items if item.goal_met]
    if met:
        page.line(f"{'Goal' if len(met) == 1 else 'Goals'} met too: {listed([goal.title for goal in met])}.")
    page.lines(_goal_lines(reply))
    if reply.logged:
        page.line(stint_line(reply.logged.category, reply.logged.stint, manners))
        page.line(
            f"{title_text(reply.logged.category)} {manners.near_day(reply.logged.stint.day)}: {hours_text(reply.logged.total)} in all."
        )
    page.lines(_served_lines(reply))
    goals = [item.goal_open for item in reply.items if item.goal_open]
    return page.message((*((_met_tap(goal),) for goal in goals), *((_not_met_tap(goal),) for goal in met), *_served_taps(reply)))


def _goal_lines(reply: TasksChanged) -> list[str]:
    """What is left of goals that stay open although their slice is done, and which are open again with their tasks."""
    left = [f"{item.goal_open.title}, {hours_text(item.goal_left)} left" for item in reply.items if item.goal_open and item.goal_left]
    again = [item.goal_reopened.title for item in reply.items if item.goal_reopened]
    both = (("still open", left), ("open again too", again))
    return [f"{'Goal' if len(titles) == 1 else 'Goals'} {stand}: {listed(titles)}." for stand, titles in both if titles]


def _served_lines(reply: TasksChanged) -> list[str]:
    """What became of the tasks that served a goal, and which of them are left."""
    along, left = _served(reply)
    done = "dropped" if reply.verb == "dropped" else "closed"
    settled = [f"{'Task' if len(along) == 1 else 'Tasks'} {done} too: {listed([task.title for task in along])}."] if along else []
    return [*settled, *([f"Still open for that: {listed([task.title for task in left])}."] if left else [])]


def _served_taps(reply: TasksChanged) -> tuple[tuple[Tap, ...], ...]:
    """A button that settles the tasks that are left as their goal was."""
    _, left = _served(reply)
    if not left:
        return ()
    pick = Pick(ids=tuple(task.id for task in left))
    them = "it" if len(left) == 1 else "them"
    return ((Tap(f"Drop {them} too", Drop(pick)) if reply.verb == "dropped" else Tap(f"Close {them} too", Close(pick)),),)


def _served(reply: TasksChanged) -> tuple[list[Task], list[Task]]:
    """The tasks settled along with goals, and those that serve them and stay open."""
    return [task for item in reply.items for task in item.along], [task for item in reply.items for task in item.left]


def _stands_words(stands: str, count: int) -> str:
    return f"{'is' if count == 1 else 'are'} {STANDS[stands]}"


def _met_tap(goal: Goal) -> Tap:
    return Tap(f"Goal met: {clipped(goal.title, 30)}", Close(Pick(goal_ids=(goal.id,))))


def _not_met_tap(goal: Goal) -> Tap:
    return Tap(f"Goal stays open: {clipped(goal.title, 26)}", Reopen(Pick(goal_ids=(goal.id,))))


def _target_words(to: date | str | None, manners: Manners) -> str:
    if to is None:
        return ""
    if isinstance(to, date):
        return f" to {manners.near_day(to)}"
    goals = {"week": "next week's", "this week": "this week's", "next month": "next month's"}
    return f" to {goals.get(to, MONTHS)} goals"


def task_added(reply: TaskAdded, manners: Manners) -> Message:
    """The task under its number, and whether its day holds too much."""
    page = Page()
    page.line(f"Task {reply.task.number} for {manners.near_day(reply.task.day)}: {task_words(reply.task, manners)}.")
    details = [title_text(reply.category)] if reply.category else []
    if reply.goal:
        details.append(f"for the goal {reply.goal}")
    if details:
        page.line(", ".join(details) + ".")
    before = reply.needed_minutes - (reply.task.estimate_minutes or 0)
    if before <= reply.free_minutes < reply.needed_minutes:
        page.line(f"That day's tasks now need {hours_text(reply.needed_minutes)}, with {hours_text(reply.free_minutes)} free to fill.")
    if reply.remind_at is None:
        return page.message()
    page.line("No message comes at that time: tasks stand in the morning message, and in the evening's if they are still open.")
    title = reply.task.title.rpartition(", ")[0] or reply.task.title
    appointment = AddCommitment(title, reply.task.day, reply.remind_at, None, reply.category)
    return page.message(((Tap("Make it an appointment", Several((Undo(), appointment)), True),),))


def task_words(task: Task, manners: Manners) -> str:
    """A task with its estimate and the day it was first meant for: "Order spokes, 30 min, since Mon 2 Mar"."""
    parts = [task.title]
    if task.estimate_minutes:
        parts.append(hours_text(task.estimate_minutes))
    since = task.pushes[0] if task.pushes else task.day
    if since < task.day or (task.state is TaskState.OPEN and since < manners.today):
        parts.append(f"since {manners.day(since)}")
    return ", ".join(parts)


def goal_words(goal: Goal) -> str:
    """A goal with its estimate and how often it was carried."""
    parts = [goal.title]
    if goal.estimate_minutes:
        parts.append(hours_text(goal.estimate_minutes))
    if goal.carried:
        parts.append(f"carried {_times(goal.carried)}")
    return ", ".join(parts)


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count) or count_text(count, "time")


def goal_added(reply: GoalAdded, manners: Manners) -> Message:
    """The goal and when it is wanted."""
    goal = reply.goal
    page = Page()
    page.line(f"Goal for {_period_words(goal, manners)}: {goal_words(goal)}.")
    page.line(f"{title_text(reply.category)}, {goal.section}." if reply.category else f"Section {goal.section}.")
    if goal.horizon is Horizon.MONTH or goal.period > manners.today:
        return page.message()
    today = AddTask(goal.title, manners.today, reply.category, goal.estimate_minutes, goal.title, goal.id)
    next_week = (
        ((Tap("For next week instead", Push(Pick(goal_ids=(goal.id,)), "week", instead=True)),),)
        if manners.today == _last_day(goal)
        else ()
    )
    return page.message(((Tap("Do it today", today),), *next_week))


def _period_words(goal: Goal, manners: Manners) -> str:
    if goal.horizon is Horizon.MONTH:
        return month_text(goal.period)
    last = _last_day(goal)
    if goal.period <= manners.today <= last:
        return "this week"
    return f"the week of {manners.days(goal.period, last)}"


def _last_day(goal: Goal) -> date:
    """The last day of a goal's week."""
    return goal.period + timedelta(days=6)
