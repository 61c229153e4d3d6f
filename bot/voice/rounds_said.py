"""The morning message and the evening's question."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from bot.language.meaning import AddTask, ClockOut, Close, Drop, Log, Push, SaidStint
from bot.language.pick import Pick
from bot.rules.local_time import ONE_DAY, elapsed_minutes
from bot.rules.planned import Planned, purpose_of
from bot.voice.danger_words import caution_lines
from bot.voice.manners import LONG_DAYS, Manners, next_day
from bot.voice.message import Message, Page, Rows, Tap, clipped
from bot.voice.plan_said import MOST_LEFT_OUT, doubt_lines, left_out_lines, plan_rows, push_rows, ratio_lines
from bot.voice.post_said import LATE
from bot.voice.replies import EveningNudge, MorningMessage, PlanMade
from bot.voice.tasks_said import goal_words, task_words
from bot.voice.views_said import (
    attribution_lines,
    commitment_lines,
    free_line,
    holiday_lines,
    plan_lines,
    running_lines,
    task_lines,
    weather_lines,
)
from storage.records import Goal, Task, TaskState


@dataclass(frozen=True, slots=True)
class Room:
    """How many lines of each kind a morning message has room for."""

    plan: int
    left_out: int
    tasks: int
    remarks: int
    gaps: bool = True


ROOMS = (Room(plan=7, left_out=MOST_LEFT_OUT, tasks=4, remarks=2), Room(6, 2, 2, 1), Room(3, 1, 1, 0, gaps=False))
"""The widest first; the first in which the message is short enough is taken."""

MOST_LINES = 20
MOST_TASKS = 8
MOST_ROWS = 3
"""Tasks with buttons of their own; those beyond are closed or pushed together, or by a reply."""

MOST_PLANNED = 4
MOST_LOG_ROWS = 2
"""Planned hours with a button of their own; those beyond are logged together. So no nudge has more than eight rows."""

MOST_GOALS = 4
"""Goals shown in the morning; the rest is counted, so that the message fits a phone."""


def morning(reply: MorningMessage, manners: Manners) -> Message:
    """The day ahead: weather, what is fixed, a plan that fits, what it leaves out, free hours; a full day is told in fewer words."""
    pages = (_morning_page(reply, manners, room) for room in ROOMS)
    page = next((page for page in pages if len(page) <= MOST_LINES), None) or _morning_page(reply, manners, ROOMS[-1])
    plan = push_rows(reply.plan, manners) if reply.plan.accepted else plan_rows(reply.plan, manners)
    rows = (*plan, *_today_rows(reply.view.goals[:MOST_GOALS], manners))
    return page.message((*rows, *_log_rows(reply.unlogged, manners, alone=MOST_LOG_ROWS)))


def _morning_page(reply: MorningMessage, manners: Manners, room: Room) -> Page:
    view = reply.view
    page = Page(gaps=room.gaps)
    page.heading(manners.long_day(view.day))
    if reply.late:
        page.line(LATE)
    page.lines(holiday_lines(view))
    page.lines(weather_lines(view, manners))
    page.gap()
    page.lines(commitment_lines(view, manners))
    page.lines(caution_lines(view.cautions, manners))
    _plan(page, reply.plan, manners, room)
    _left_over(page, reply, manners, room)
    page.gap()
    page.line(free_line(view, all_placed=all(each.task_id is None for each in reply.plan.left_out)))
    page.lines(running_lines(view.running, manners))
    page.lines(_unlogged_lines(reply, manners))
    page.lines(attribution_lines(view))
    return page


def _plan(page: Page, plan: PlanMade, manners: Manners, room: Room) -> None:
    if plan.lines or plan.left_out:
        page.gap()
        page.line("Your plan" if plan.accepted else "A plan that fits")
        page.some(plan_lines(plan.lines, manners), room.plan, "plan")
        page.lines(left_out_lines(plan.left_out, manners, room.left_out))
        page.lines(ratio_lines(plan.ratios, manners)[: room.remarks])
        page.lines(doubt_lines(proven=plan.proven)[: room.remarks])


def _left_over(page: Page, reply: MorningMessage, manners: Manners, room: Room) -> None:
    """Tasks and goals that the plan has no hours for and does not speak of."""
    planned = {line.title for line in reply.plan.lines} | {each.title for each in reply.plan.left_out[: room.left_out]}
    tasks = tuple(task for task in reply.view.tasks if task.title not in planned and task.state is TaskState.OPEN)
    goals = [goal_words(goal) for goal in reply.view.goals if goal.title not in planned]
    if tasks:
        page.gap()
        page.line("Tasks without hours" if planned else "Tasks")
        page.some(task_lines(tasks, manners), room.tasks, "tasks")
    if goals:
        more = [f"{len(goals) - MOST_GOALS} more"] if len(goals) > MOST_GOALS else []
        page.gap()
        page.line(f"Goals of the week that wait: {'; '.join([*goals[:MOST_GOALS], *more])}.")


def _unlogged_lines(reply: MorningMessage, manners: Manners) -> list[str]:
    yesterday = reply.view.day - ONE_DAY
    words = [planned_words(each, yesterday, manners) for _, each in reply.unlogged[:MOST_LOG_ROWS]]
    words += [f"{len(reply.unlogged) - MOST_LOG_ROWS} more"] if len(reply.unlogged) > MOST_LOG_ROWS else []
    return [f"No hours yet for yesterday: {', '.join(words)}."] if words else []


def _today_rows(goals: tuple[Goal, ...], manners: Manners) -> Rows:
    taps = [
        Tap(
            f"Today: {clipped(goal.title, 30)}",
            AddTask(goal.title, manners.today, None, goal.estimate_minutes, goal.title, goal.id),
        )
        for goal in goals
    ]
    return tuple((tap,) for tap in taps)


def planned_words(planned: Planned, day: date, manners: Manners) -> str:
    """ "13:00–17:00 museum shift" of ``day``; what began on another day says on which."""
    began = "" if planned.day == day else f"{manners.near_day(planned.day)} "
    return f"{began}{manners.span(planned.starts, planned.ends)} {planned.title}"


def evening(reply: EveningNudge, manners: Manners) -> Message:
    """What the day leaves open, with a row of buttons each."""
    page = Page()
    page.heading(f"Before {LONG_DAYS[reply.day.weekday()]} ends")
    if reply.late:
        page.line(LATE)
    if reply.tasks:
        page.line("Still open")
        page.some([f"{task.number} {task_words(task, manners)}" for task in reply.tasks], MOST_TASKS, "tasks")
        page.lines(_beyond_lines(reply.tasks[MOST_ROWS:]))
    if reply.tasks and reply.unlogged:
        page.gap()
    if reply.unlogged:
        page.line("Planned, with no hours yet")
        page.some([planned_words(each, reply.day, manners) for _, each in reply.unlogged], MOST_PLANNED, f"day {reply.day.isoformat()}")
    page.lines(running_lines(reply.running, manners))
    return page.message(_evening_rows(reply, manners))


def _beyond_lines(tasks: tuple[Task, ...]) -> list[str]:
    """How a task without buttons is closed, pushed or dropped."""
    return [f"For the others, write: done {task.number}, push {task.number} or drop {task.number}" for task in tasks[:1]]


def _evening_rows(reply: EveningNudge, manners: Manners) -> Rows:
    tomorrow = next_day(reply.day)
    rows = [_task_row(task) for task in reply.tasks[:MOST_ROWS]]
    if len(reply.tasks) > 1:
        everything = Pick(ids=tuple(task.id for task in reply.tasks))
        rows.append((Tap("Close all", Close(everything)), Tap("Push all", Push(everything, tomorrow))))
    rows += _log_rows(reply.unlogged, manners, alone=1)
    if reply.running is not None:
        rows.append((Tap("Clock out", ClockOut()),))
    return tuple(rows)


def _task_row(task: Task) -> tuple[Tap, ...]:
    pick = Pick(ids=(task.id,))
    return (
        Tap(f"Close {task.number}", Close(pick)),
        Tap(f"Push {task.number}", Push(pick, next_day(task.day))),
        Tap(f"Drop {task.number}", Drop(pick)),
    )


def _log_rows(unlogged: tuple[tuple[str, Planned], ...], manners: Manners, *, alone: int) -> Rows:
    """A button for each of the first planned hours, and one for all of them where they are more than ``alone``."""
    rows = [(_log_tap(category, each, manners),) for category, each in unlogged[:MOST_LOG_ROWS]]
    if len(unlogged) > alone:
        rows.append((Tap("Log all as planned", Log(tuple(_as_planned(category, each, manners) for category, each in unlogged))),))
    return tuple(rows)


def _log_tap(category: str, planned: Planned, manners: Manners) -> Tap:
    label = f"Log {category} {manners.span(planned.starts, planned.ends)}"
    return Tap(label, Log((_as_planned(category, planned, manners),)))


def _as_planned(category: str, planned: Planned, manners: Manners) -> SaidStint:
    minutes = elapsed_minutes(planned.starts, planned.ends)
    starts, ends = manners.local(planned.starts), manners.local(planned.ends)
    note, task_ids = purpose_of(planned)
    return SaidStint(
        category,
        starts.date(),
        minutes,
        starts.time(),
        ends.time(),
        note=note,
        task_ids=task_ids,
    )
