"""What hours were spent on: the tasks they name, and the category that follows from it where none was said."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from bot.actions.agenda import agenda
from bot.actions.goal_time import goal_noted
from bot.actions.naming import category_names
from bot.actions.open_tasks import numbered, open_for
from bot.actions.refused import Stopped, refused
from bot.actions.routine_days import routine_noted
from bot.actions.today import today
from bot.language.meaning import Log, SaidStint
from bot.rules.spans import Span, shared
from bot.rules.weeks import first_of_week, last_of_week
from bot.voice.replies import Question
from storage.desk import Desk
from storage.records import Goal, Occurrence, Routine, Stint, TaskState


def tasks_of(desk: Desk, said: SaidStint) -> tuple[int, ...]:
    """The ids of the tasks that the hours name by button, by number, or by a note that is an open one's title. Raises Stopped."""
    if said.task_ids:
        return tuple(id for id in said.task_ids if desk.tasks.find(id) is not None)
    if said.tasks:
        return tuple(numbered(desk, number).id for number in said.tasks)
    note = said.note.lower() if said.note else None
    noted = tuple(task.id for task in open_for(desk, today(desk)) if task.title.lower() == note) if note else ()
    return noted[:1]


def planned_for(desk: Desk, stint: Stint) -> tuple[int, ...]:
    """The open task for which most of these hours were planned, in their category and by a plan that was accepted; else none."""
    if stint.starts is None or stint.ends is None:
        return ()
    span = Span(stint.starts, stint.ends)
    minutes = Counter[int]()
    for block in desk.blocks.on(stint.day):
        both = shared(span, block) if block.accepted and block.category_id == stint.category_id else None
        minutes[block.task_id or 0] += both.minutes if both else 0
    most = [id for id, spent in minutes.items() if 2 * spent > span.minutes]
    return tuple(id for id in most if id and _is_open(desk, id))


def _is_open(desk: Desk, id: int) -> bool:
    task = desk.tasks.find(id)
    return task is not None and task.state is TaskState.OPEN


def in_categories(desk: Desk, said: Log) -> Log:
    """The hours, each with its tasks by id, as a button may be tapped on another day, and in a category. Raises Stopped to ask for it.

    A category that was not said is that of what is named; for a task without one that of the clock that runs.
    """
    known = (replace(each, task_ids=tasks_of(desk, each)) for each in said.stints)
    stints = tuple(each if each.category is not None else _in_its_own(desk, each) for each in known)
    if all(each.category is not None for each in stints):
        return replace(said, stints=stints)
    names = tuple(category_names(desk).values())
    choices = (tuple(replace(each, category=each.category or name) for each in stints) for name in names)
    raise Stopped(Question(tuple(replace(said, stints=each) for each in choices)))


def _noted(desk: Desk, said: SaidStint) -> list[Routine | Goal | Occurrence]:
    """What has the note for its title: a routine, a goal of that week, what is fixed in it."""
    routine, goal = routine_noted(desk, said.note), goal_noted(desk, said.note, said.day)
    title = said.note.lower() if said.note else None
    week = first_of_week(said.day, desk.person.week_starts), last_of_week(said.day, desk.person.week_starts)
    fixed = [each for each in agenda(desk, *week) if each.title.lower() == title]
    return [*((routine,) if routine else ()), *((goal,) if goal else ()), *fixed]


def _in_its_own(desk: Desk, said: SaidStint) -> SaidStint:
    names = category_names(desk)
    if said.began == "planned":
        raise refused("nothing waits", next(iter(names.values()), "work"))
    tasks = [desk.tasks.get(id) for id in said.task_ids]
    noted = _noted(desk, said)
    known = [each.category_id for each in (*tasks, *noted) if each.category_id is not None]
    if known:
        return replace(said, category=names[known[0]])
    running = desk.running.current()
    return said if running is None or noted else replace(said, category=names[running.category_id], why="clocked in")
