"""The plan of a day, accepted: its blocks are planned hours from then on, and what was for a goal becomes a task."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.actions.day_plan import lines_of, propose
from bot.actions.open_tasks import left_over, open_for
from bot.actions.refused import refused
from bot.actions.task_time import minutes_spent
from bot.actions.tasks import pushed
from bot.actions.today import today
from bot.language.plan_meaning import AcceptPlan, MakePlan
from bot.language.wire import from_json
from bot.voice.replies import LeftOut, PlanAccepted, Reply
from storage.desk import Desk
from storage.records import Block, Task

AS_FAR_AS_PLANNED = timedelta(days=14)
"""How far ahead a proposed plan is looked for, when none was shown just now."""

MOST_LATE = timedelta(minutes=30)
"""Who accepts a plan no later than this after its first hours begin may well be at them already."""


def accept_plan(desk: Desk, said: AcceptPlan) -> Reply:
    """Accepts what is proposed for a day, by default the one shown last; a goal becomes a task, so that it can be closed and pushed.

    Hours of today that are past by now are no plan: what was proposed for them is planned anew first, in what is left of the day.
    """
    day = said.day or _shown_last(desk)
    if not desk.blocks.on(day):
        propose(desk, day)
    return accepted(desk, day, planned_anew(desk, day))


def some_past(desk: Desk, day: date) -> bool:
    """Whether some of what is proposed for the day is for hours that are past."""
    return day == today(desk) and any(not each.accepted and each.starts + MOST_LATE <= desk.now for each in desk.blocks.on(day))


def planned_anew(desk: Desk, day: date) -> tuple[LeftOut, ...] | None:
    """Plans what is proposed for past hours in what is left of the day; gives what finds none then, or None where nothing was past."""
    return propose(desk, day).left_out if some_past(desk, day) else None


def accepted(desk: Desk, day: date, left_out: tuple[LeftOut, ...] | None) -> PlanAccepted:
    """The day's plan, accepted as it stands; ``left_out`` where it was made anew."""
    _accept(desk, day)
    return PlanAccepted(day, lines_of(desk, day), anew=left_out is not None, left_out=left_out or ())


def _shown_last(desk: Desk) -> date:
    """The day whose plan the person was shown last, or that was proposed last; today when there is none.

    Raises Stopped when a week's plan was shown last, which is a look ahead and keeps no hours, or a day's that is empty.
    """
    latest = desk.outbox.latest()
    offered = [from_json(button.does) for row in latest.buttons for button in row] if latest else []
    shown = next((each.day for each in offered if isinstance(each, AcceptPlan) and each.day), None)
    if shown is not None:
        return shown
    if any(isinstance(each, MakePlan) and each.over == "day" for each in offered):
        raise refused("nothing to accept")
    proposed = [block for block in desk.blocks.between(today(desk), today(desk) + AS_FAR_AS_PLANNED) if not block.accepted]
    return max(proposed, key=lambda block: block.id).day if proposed else today(desk)


def _accept(desk: Desk, day: date) -> None:
    _bring(desk, day)
    tasks: dict[int, int] = {}
    for block in desk.blocks.on(day):
        if block.goal_id is not None and block.task_id is None and block.goal_id not in tasks:
            tasks[block.goal_id] = _task_for(desk, block).id
        task_id = block.task_id or tasks.get(block.goal_id or 0)
        desk.blocks.change(replace(block, task_id=task_id, accepted=True))


def _bring(desk: Desk, day: date) -> None:
    """A task that today leaves over and that is planned for tomorrow goes there."""
    planned = {block.task_id for block in desk.blocks.on(day)}
    for task in left_over(desk, day):
        if task.id in planned:
            desk.tasks.change(pushed(task, day, desk.tasks.next_number(day)))


def _task_for(desk: Desk, block: Block) -> Task:
    """The day's open task of the goal, with the minutes of its blocks added to what it has left; a new one where there is none."""
    minutes = sum((each.ends - each.starts) // timedelta(minutes=1) for each in desk.blocks.on(block.day) if each.goal_id == block.goal_id)
    serving = [task for task in open_for(desk, block.day) if task.goal_id == block.goal_id and task.title == block.title]
    if serving:
        so_far = max(serving[0].estimate_minutes or 0, minutes_spent(desk, serving[:1]).get(serving[0].id, 0))
        return desk.tasks.change(replace(serving[0], estimate_minutes=so_far + minutes))
    number = desk.tasks.next_number(block.day)
    return desk.tasks.add(Task(0, block.title, block.day, number, block.category_id, block.goal_id, minutes))
