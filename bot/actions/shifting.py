"""The plan of today, changed: to a later hour, not today, one for the other, to the hours said. What is changed is accepted."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from bot.actions.accepting import accepted, planned_anew, some_past
from bot.actions.agenda import busy_on
from bot.actions.day_plan import keep_planned, propose
from bot.actions.hours import log
from bot.actions.matching import best_match
from bot.actions.open_tasks import numbered, open_for
from bot.actions.refused import refused
from bot.actions.routine_days import not_planned
from bot.actions.tasks import pushed
from bot.actions.today import today
from bot.actions.wanted import candidates_for, open_day
from bot.language.meaning import Log, SaidStint
from bot.language.pick import Pick
from bot.language.plan_meaning import Later, NotToday, Place, Swap
from bot.rules.local_time import ONE_DAY, instant_of, local
from bot.rules.planning.day import plan_day
from bot.rules.spans import Span, overlap
from bot.rules.travel import taken
from bot.voice.manners import listed
from bot.voice.replies import Reply
from bot.voice.times_of_day import time_text
from storage.desk import Desk
from storage.records import Block, Occurrence, Task, TaskState


def later(desk: Desk, said: Later) -> Reply:
    """Plans what is picked again, after the hours it has now; everything else stays where it is."""
    day, chosen = _picked(desk, said.tasks)
    left_out = planned_anew(desk, day)
    others = tuple(each for each in desk.blocks.on(day) if not any(_same(each, block) for block in chosen))
    candidates = tuple(
        replace(each, wanted=replace(each.wanted, window=Span(block.ends, _end_of(desk, day))))
        for each in candidates_for(desk, day, others)
        for block in chosen
        if _same(each.block, block)
    )
    plan = plan_day(open_day(desk, day, others, candidates))
    left = {each.key for each in plan.unplaced}
    placed = [each.block for each in candidates if each.wanted.key not in left]
    missing = [block.title for block in chosen if not any(_same(each, block) for each in placed)]
    if missing:
        raise refused("no later hour", listed(missing))
    for block in chosen:
        _remove_all(desk, block)
    keep_planned(desk, plan, {each.wanted.key: each for each in candidates})
    titles = {block.title for block in chosen}
    still = tuple(each for each in left_out if each.title not in titles) if left_out else left_out
    return accepted(desk, day, still)


def not_today(desk: Desk, said: NotToday) -> Reply:
    """Takes what is picked out of today's plan; tasks go to tomorrow."""
    day, chosen = _picked(desk, said.tasks)
    for block in chosen:
        _remove_all(desk, block)
        if block.task_id is not None:
            tomorrow = day + ONE_DAY
            desk.tasks.change(pushed(desk.tasks.get(block.task_id), tomorrow, desk.tasks.next_number(tomorrow)))
    plan = accepted(desk, day, planned_anew(desk, day))
    gone = tuple(block.title for block in chosen if block.task_id is not None)
    return replace(plan, pushed=gone, skipped=tuple(block.title for block in chosen if block.task_id is None))


def swap(desk: Desk, said: Swap) -> Reply:
    """Two blocks change places: the later one starts where the earlier did, and the earlier one ends where the later did."""
    left_out = planned_anew(desk, today(desk))
    day, (one, other) = _picked(desk, Pick(numbers=(said.first, said.second)))
    for block in (one, other):
        if not block.id:
            raise refused("not planned", block.title)
    first, second = sorted((one, other), key=lambda block: block.starts)
    moved = (
        replace(second, starts=first.starts, ends=first.starts + (second.ends - second.starts)),
        replace(first, starts=second.ends - (first.ends - first.starts), ends=second.ends),
    )
    _demand_free(desk, day, moved, {first.id, second.id})
    for block in moved:
        desk.blocks.change(block)
    return accepted(desk, day, left_out)


def place(desk: Desk, said: Place) -> Reply:
    """Plans what is picked for the hours said; they are free of what was proposed and is planned anew around them.

    Hours that are over cannot be planned any more: they were spent on it.
    """
    day, (block, *_) = _picked(desk, said.tasks)
    starts, ends = instant_of(day, said.start, desk.person.zone), instant_of(day, said.end, desk.person.zone)
    if ends <= starts:
        raise refused("end before start", time_text(said.end, desk.person.clock_style))
    if ends <= desk.now:
        return log(desk, Log((_spent(block, said),)))
    moved, past = replace(block, starts=starts, ends=ends), some_past(desk, day)
    leaving = {each.id for each in desk.blocks.on(day) if _same(each, block) or (past and not each.accepted)}
    _demand_free(desk, day, (moved,), leaving)
    _remove_all(desk, block)
    desk.blocks.add(replace(moved, id=0, accepted=True))
    return accepted(desk, day, propose(desk, day).left_out if past else None)


def _spent(block: Block, said: Place) -> SaidStint:
    """The hours said, spent on the task, routine or goal of the block."""
    minutes = (said.end.hour - said.start.hour) * 60 + said.end.minute - said.start.minute
    tasks = (block.task_id,) if block.task_id is not None else ()
    return SaidStint(None, block.day, minutes, said.start, said.end, note=None if tasks else block.title, task_ids=tasks)


def _picked(desk: Desk, pick: Pick) -> tuple[date, tuple[Block, ...]]:
    """The first block of today of each thing that the pick names, by its task's number or by words; a task without one gets one to move."""
    day = today(desk)
    if not desk.blocks.on(day):
        propose(desk, day)
    blocks = desk.blocks.on(day)
    if pick.numbers:
        return day, tuple(_of_task(desk, day, blocks, number) for number in pick.numbers)
    if pick.all:
        return day, _all_to_come(desk, day, blocks)
    tasks = [(task.title, _block_of(desk, task, day)) for task in open_for(desk, day)]
    found = best_match(pick.words or "", [*((block.title, block) for block in blocks), *tasks])
    if found is None:
        raise not_planned(desk, pick.words or "")
    return day, (found,)


def _all_to_come(desk: Desk, day: date, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """The first block of each open task of the day, and of all else of its plan that is not over."""
    tasks = tuple(_first_of(desk, task, day, blocks) for task in open_for(desk, day))
    others = (each for each in blocks if each.task_id is None and each.ends > desk.now)
    found = (*tasks, *{(each.routine_id, each.goal_id): each for each in others}.values())
    if not found:
        raise refused("no tasks open")
    return found


def _of_task(desk: Desk, day: date, blocks: tuple[Block, ...], number: int) -> Block:
    task = numbered(desk, number)
    if task.state is not TaskState.OPEN:
        raise refused("no such task", str(number))
    return _first_of(desk, task, day, blocks)


def _first_of(desk: Desk, task: Task, day: date, blocks: tuple[Block, ...]) -> Block:
    return next((each for each in blocks if each.task_id == task.id), _block_of(desk, task, day))


def _block_of(desk: Desk, task: Task, day: date) -> Block:
    """A block of the day for a task that has none, at no time yet."""
    return Block(0, day, desk.now, desk.now, task.title, task.category_id, task.id)


def _same(one: Block, other: Block) -> bool:
    """Whether they are of one thing; a task is the same with or without the goal whose share it was when it was planned."""
    if one.task_id is not None or other.task_id is not None:
        return one.task_id == other.task_id
    return (one.routine_id, one.goal_id) == (other.routine_id, other.goal_id)


def _remove_all(desk: Desk, block: Block) -> None:
    for each in desk.blocks.on(block.day):
        if _same(each, block):
            desk.blocks.remove(each.id)


def _end_of(desk: Desk, day: date) -> datetime:
    return open_day(desk, day, (), ()).window.ends


def _demand_free(desk: Desk, day: date, moved: tuple[Block, ...], but: set[int]) -> None:
    """Raises Stopped when a moved block overlaps a commitment, the way to one, or another block."""
    fixed = busy_on(desk, day)
    blocks = [each for each in desk.blocks.on(day) if each.id not in but]
    taking: tuple[Occurrence | Block, ...] = (*fixed, *blocks)
    for block in moved:
        for other in taking:
            if overlap(block, other):
                raise refused("not free then", _named(desk, other))
        for each in fixed:
            if overlap(block, taken(each, desk.person.travel_minutes)):
                raise refused("on the way then", _named(desk, each))


def _named(desk: Desk, taking: Occurrence | Block) -> str:
    starts = local(taking.starts, desk.person.zone).time()
    return f"{taking.title}, {time_text(starts, desk.person.clock_style)}"
