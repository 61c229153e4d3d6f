"""The tasks that a day has before it: its own, and today those that earlier days left open.

The morning carries the latter over. Before it, and a night is long for who works in it, they are as open as today's own.
"""

from __future__ import annotations

from datetime import date, datetime

from bot.actions.refused import refused
from bot.actions.today import today
from bot.rules.local_time import ONE_DAY
from storage.desk import Desk
from storage.records import Task, TaskState


def tasks_for(desk: Desk, day: date) -> tuple[Task, ...]:
    """All tasks of ``day`` whatever their state, by number; before those of today what earlier days left open until today."""
    if day != today(desk):
        return desk.tasks.on(day)
    settled = tuple(task for task in desk.tasks.settled_between(day, day) if task.day < day)
    return (*settled, *desk.tasks.open_before(day), *desk.tasks.on(day))


def open_for(desk: Desk, day: date) -> tuple[Task, ...]:
    """The open ones among them, oldest day first."""
    return (*(desk.tasks.open_before(day) if day == today(desk) else ()), *desk.tasks.open_on(day))


def left_over(desk: Desk, day: date) -> tuple[Task, ...]:
    """The open tasks that today leaves for ``day``, where that is tomorrow: what was planned for them today is over.

    The morning carries them over; who plans tomorrow the evening before plans them too.
    """
    now = today(desk)
    if day != now + ONE_DAY:
        return ()
    ends: dict[int | None, datetime] = {}
    for block in desk.blocks.on(now):
        if block.accepted:
            ends[block.task_id] = max(block.ends, ends.get(block.task_id, block.ends))
    return tuple(task for task in open_for(desk, now) if task.id in ends and ends[task.id] <= desk.now) if ends else ()


def numbered(desk: Desk, number: int) -> Task:
    """The task that bears the number today, an open one before one that is settled.

    Raises Stopped when there is none, or when one of today and one of an earlier day are open under it.
    """
    bearing = [task for task in tasks_for(desk, today(desk)) if task.number == number]
    if not bearing:
        raise refused("no such task", str(number))
    still_open = [task for task in bearing if task.state is TaskState.OPEN]
    if len(still_open) > 1:
        raise refused("several under a number", " and ".join(task.title for task in still_open))
    return (*still_open, *reversed(bearing))[0]
