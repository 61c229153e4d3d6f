"""The plan of a day: made, accepted, changed. Proposed blocks are kept beside accepted ones until a plan is made anew."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.actions.agenda import busy_on
from bot.actions.estimating import ratios_worth_saying
from bot.actions.matching import best_match
from bot.actions.open_tasks import numbered, open_for, tasks_for
from bot.actions.refused import refused
from bot.actions.routine_days import not_planned
from bot.actions.tasks import pushed
from bot.actions.today import today
from bot.actions.wanted import Candidate, candidates_for, open_day
from bot.actions.week_plan import week_plan
from bot.language.pick import Pick
from bot.language.plan_meaning import AcceptPlan, Later, MakePlan, NotToday, Place, Swap
from bot.language.wire import from_json
from bot.rules.local_time import ONE_DAY, instant_of, local
from bot.rules.planning.asked import OpenDay
from bot.rules.planning.day import DayPlan, Unplaced, first_day_with_room, plan_day
from bot.rules.planning.remedies import Remedy, Without
from bot.rules.spans import Span, overlap
from bot.rules.travel import taken
from bot.rules.weeks import days_from, last_of_week
from bot.voice.replies import LeftOut, PlanAccepted, PlanLine, PlanMade, Reply
from bot.voice.times_of_day import time_text
from storage.desk import Desk
from storage.records import Block, Occurrence, Task, TaskState

MOST_MOVED = 3
"""Things without hours for which another day is looked for; no more are named."""

AS_FAR_AS_PLANNED = timedelta(days=14)
"""How far ahead a proposed plan is looked for, when none was shown just now."""

MOST_LATE = timedelta(minutes=30)
"""Who accepts a plan no later than this after its first hours begin may well be at them already."""

LOOK_AHEAD = timedelta(days=2)
"""How far ahead room is looked for at least."""


def make_plan(desk: Desk, said: MakePlan) -> Reply:
    """Plans the day anew around what was accepted, or the week."""
    return week_plan(desk, said) if said.over == "week" else propose(desk, said.day or today(desk))


def propose(desk: Desk, day: date) -> PlanMade:
    """Keeps the best plan of the day as proposed blocks, in place of those proposed before."""
    before = desk.blocks.on(day)
    kept = tuple(block for block in before if block.accepted)
    for block in before:
        if not block.accepted:
            desk.blocks.remove(block.id)
    candidates = candidates_for(desk, day, kept)
    plan = plan_day(open_day(desk, day, kept, candidates))
    by_key = {each.wanted.key: each for each in candidates}
    blocks = sorted((*kept, *_keep(desk, plan, by_key)), key=lambda block: block.starts)
    left_out = tuple(_left_out(desk, day, each, by_key, number < MOST_MOVED) for number, each in enumerate(plan.unplaced))
    return PlanMade(day, _lines(desk, day, blocks), left_out, plan.minutes_left, _ratios(desk, candidates), plan.proven)


def _keep(desk: Desk, plan: DayPlan, by_key: Mapping[str, Candidate]) -> tuple[Block, ...]:
    """Keeps what the plan has placed of the candidates as proposed blocks."""
    placed = [block for block in plan.blocks if block.key in by_key]
    return desk.blocks.add_all([replace(by_key[each.key].block, starts=each.span.starts, ends=each.span.ends) for each in placed])


def _left_out(desk: Desk, day: date, unplaced: Unplaced, by_key: dict[str, Candidate], may_move: bool) -> LeftOut:
    found = by_key[unplaced.key]
    task = found.block.task_id
    room = _day_with_room(desk, day, found) if may_move and task is not None else None
    return LeftOut(found.block.title, found.wanted.minutes, _in_titles(unplaced.remedies, by_key), task, room)


def _day_with_room(desk: Desk, day: date, candidate: Candidate) -> date | None:
    """The next of the days left of the week, or of the two ahead, whose own plan has room for it."""
    last = max(last_of_week(day, desk.person.week_starts), day + LOOK_AHEAD)
    return first_day_with_room(candidate.wanted, ((each, _as_it_stands(desk, each)) for each in days_from(day + ONE_DAY, last)))


def _as_it_stands(desk: Desk, day: date) -> OpenDay:
    kept = tuple(block for block in desk.blocks.on(day) if block.accepted)
    return open_day(desk, day, kept, candidates_for(desk, day, kept))


def _ratios(desk: Desk, candidates: tuple[Candidate, ...]) -> tuple[tuple[str, float], ...]:
    """The ratios that corrected the estimates of what was to be planned."""
    return ratios_worth_saying(
        desk, frozenset(each.block.category_id for each in candidates if each.block.task_id and each.block.category_id)
    )


def lines_of(desk: Desk, day: date) -> tuple[PlanLine, ...]:
    """The day's blocks with the numbers of their tasks."""
    return _lines(desk, day, desk.blocks.on(day))


def _lines(desk: Desk, day: date, blocks: Iterable[Block]) -> tuple[PlanLine, ...]:
    numbers = {task.id: task.number for task in tasks_for(desk, day)}
    return tuple(PlanLine(each.starts, each.ends, each.title, numbers.get(each.task_id or 0)) for each in blocks)


def _in_titles(remedies: tuple[Remedy, ...], by_key: dict[str, Candidate]) -> tuple[Remedy, ...]:
    """Remedies that name a thing by its key name it by its title instead."""
    return tuple(Without(by_key[each.key].block.title) if isinstance(each, Without) else each for each in remedies)


def accept_plan(desk: Desk, said: AcceptPlan) -> Reply:
    """Accepts what is proposed for a day, by default the one shown last; a goal becomes a task, so that it can be closed and pushed.

    Hours of today that are past by now are no plan: what was proposed for them is planned anew first, in what is left of the day.
    """
    day = said.day or _shown_last(desk)
    if not desk.blocks.on(day):
        propose(desk, day)
    return _accepted(desk, day, _anew(desk, day))


def _some_past(desk: Desk, day: date) -> bool:
    """Whether some of what is proposed for the day is for hours that are past."""
    return day == today(desk) and any(not each.accepted and each.starts + MOST_LATE <= desk.now for each in desk.blocks.on(day))


def _anew(desk: Desk, day: date) -> tuple[LeftOut, ...] | None:
    """Plans what is proposed for past hours in what is left of the day; gives what finds none then, or None where nothing was past."""
    return propose(desk, day).left_out if _some_past(desk, day) else None


def _accepted(desk: Desk, day: date, left_out: tuple[LeftOut, ...] | None, pushed: str | None = None) -> PlanAccepted:
    """The day's plan, accepted as it stands; ``left_out`` where it was made anew."""
    _accept(desk, day)
    return PlanAccepted(day, lines_of(desk, day), pushed, anew=left_out is not None, left_out=left_out or ())


def _shown_last(desk: Desk) -> date:
    """The day whose plan the person was shown last, or that was proposed last; today when there is none.

    Raises Stopped when a week's plan was shown last: that is a look ahead, and keeps no hours.
    """
    latest = desk.outbox.latest()
    offered = [from_json(button.does) for row in latest.buttons for button in row] if latest else []
    shown = next((each.day for each in offered if isinstance(each, AcceptPlan) and each.day), None)
    if shown is not None:
        return shown
    if any(isinstance(each, MakePlan) and each.over == "day" for each in offered):
        raise refused("week not accepted")
    proposed = [block for block in desk.blocks.between(today(desk), today(desk) + AS_FAR_AS_PLANNED) if not block.accepted]
    return max(proposed, key=lambda block: block.id).day if proposed else today(desk)


def _accept(desk: Desk, day: date) -> None:
    tasks: dict[int, int] = {}
    for block in desk.blocks.on(day):
        if block.goal_id is not None and block.task_id is None and block.goal_id not in tasks:
            tasks[block.goal_id] = _task_for(desk, block).id
        task_id = block.task_id or tasks.get(block.goal_id or 0)
        desk.blocks.change(replace(block, task_id=task_id, accepted=True))


def _task_for(desk: Desk, block: Block) -> Task:
    minutes = sum((each.ends - each.starts) // timedelta(minutes=1) for each in desk.blocks.on(block.day) if each.goal_id == block.goal_id)
    number = desk.tasks.next_number(block.day)
    return desk.tasks.add(Task(0, block.title, block.day, number, block.category_id, block.goal_id, minutes))


def later(desk: Desk, said: Later) -> Reply:
    """Plans what is picked again, after the hours it has now; everything else stays where it is."""
    day, block = _picked(desk, said.tasks)
    left_out = _anew(desk, day)
    others = _without(desk, block)
    candidates = tuple(
        replace(each, wanted=replace(each.wanted, window=Span(block.ends, _end_of(desk, day)), outdoors=each.wanted.outdoors))
        for each in candidates_for(desk, day, others)
        if _same(each.block, block)
    )
    plan = plan_day(open_day(desk, day, others, candidates))
    if plan.unplaced or not candidates:
        raise refused("no later hour", block.title)
    _remove_all(desk, block)
    _keep(desk, plan, {each.wanted.key: each for each in candidates})
    still = tuple(each for each in left_out if each.title != block.title) if left_out else left_out
    return _accepted(desk, day, still)


def not_today(desk: Desk, said: NotToday) -> Reply:
    """Takes what is picked out of today's plan; a task goes to tomorrow."""
    day, block = _picked(desk, said.tasks)
    _remove_all(desk, block)
    task = desk.tasks.find(block.task_id) if block.task_id is not None else None
    if task is not None:
        tomorrow = day + ONE_DAY
        desk.tasks.change(pushed(task, tomorrow, desk.tasks.next_number(tomorrow)))
    accepted = _accepted(desk, day, _anew(desk, day), block.title if task else None)
    return replace(accepted, skipped=None if task else block.title)


def swap(desk: Desk, said: Swap) -> Reply:
    """Two blocks change places: the later one starts where the earlier did, and the earlier one ends where the later did."""
    left_out = _anew(desk, today(desk))
    day, one = _picked(desk, Pick(numbers=(said.first,)))
    _, other = _picked(desk, Pick(numbers=(said.second,)))
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
    return _accepted(desk, day, left_out)


def place(desk: Desk, said: Place) -> Reply:
    """Plans what is picked for the hours said; they are free of what was proposed and is planned anew around them."""
    day, block = _picked(desk, said.tasks)
    starts, ends = instant_of(day, said.start, desk.person.zone), instant_of(day, said.end, desk.person.zone)
    if ends <= starts:
        raise refused("end before start", time_text(said.end, desk.person.clock_style))
    moved, past = replace(block, starts=starts, ends=ends), _some_past(desk, day)
    leaving = {each.id for each in desk.blocks.on(day) if _same(each, block) or (past and not each.accepted)}
    _demand_free(desk, day, (moved,), leaving)
    _remove_all(desk, block)
    desk.blocks.add(replace(moved, id=0, accepted=True))
    return _accepted(desk, day, propose(desk, day).left_out if past else None)


def _picked(desk: Desk, pick: Pick) -> tuple[date, Block]:
    """The first block of today that the pick names, by its task's number or by words; a task without one gets one to move."""
    day = today(desk)
    if not desk.blocks.on(day):
        propose(desk, day)
    blocks = desk.blocks.on(day)
    if pick.numbers:
        return day, _of_task(desk, day, blocks, pick.numbers[0])
    tasks = [(task.title, _block_of(desk, task, day)) for task in open_for(desk, day)]
    found = best_match(pick.words or "", [*((block.title, block) for block in blocks), *tasks])
    if found is None:
        raise not_planned(desk, pick.words or "")
    return day, found


def _of_task(desk: Desk, day: date, blocks: tuple[Block, ...], number: int) -> Block:
    task = numbered(desk, number)
    if task.state is not TaskState.OPEN:
        raise refused("no such task", str(number))
    return next((each for each in blocks if each.task_id == task.id), _block_of(desk, task, day))


def _block_of(desk: Desk, task: Task, day: date) -> Block:
    """A block of the day for a task that has none, at no time yet."""
    return Block(0, day, desk.now, desk.now, task.title, task.category_id, task.id)


def _same(one: Block, other: Block) -> bool:
    return (one.task_id, one.routine_id, one.goal_id) == (other.task_id, other.routine_id, other.goal_id)


def _without(desk: Desk, block: Block) -> tuple[Block, ...]:
    return tuple(each for each in desk.blocks.on(block.day) if not _same(each, block))


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
