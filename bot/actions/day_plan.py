"""The plan of a day, made. Proposed blocks are kept beside accepted ones until a plan is made anew."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, timedelta

from bot.actions.estimating import ratios_worth_saying
from bot.actions.open_tasks import tasks_for
from bot.actions.today import today
from bot.actions.wanted import Candidate, candidates_for, open_day
from bot.actions.week_plan import week_plan
from bot.language.plan_meaning import MakePlan
from bot.rules.local_time import ONE_DAY
from bot.rules.planning.asked import OpenDay
from bot.rules.planning.day import DayPlan, Unplaced, first_day_with_room, plan_day
from bot.rules.planning.remedies import Remedy, Without
from bot.rules.weeks import days_from, last_of_week
from bot.voice.replies import LeftOut, PlanLine, PlanMade, Reply
from storage.desk import Desk
from storage.records import Block

MOST_MOVED = 3
"""Things without hours for which another day is looked for; no more are named."""

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
    blocks = sorted((*kept, *keep_planned(desk, plan, by_key)), key=lambda block: block.starts)
    left_out = tuple(_left_out(desk, day, each, by_key, number < MOST_MOVED) for number, each in enumerate(plan.unplaced))
    ratios, accepted = _ratios(desk, candidates), bool(blocks) and len(kept) == len(blocks)
    return PlanMade(day, _lines(desk, day, blocks), left_out, plan.minutes_left, ratios, plan.proven, accepted)


def keep_planned(desk: Desk, plan: DayPlan, by_key: Mapping[str, Candidate]) -> tuple[Block, ...]:
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


def lines_of(desk: Desk, day: date, *, accepted: bool = False) -> tuple[PlanLine, ...]:
    """The day's blocks with the numbers of their tasks; those that were ``accepted`` alone if so."""
    return _lines(desk, day, [block for block in desk.blocks.on(day) if block.accepted or not accepted])


def _lines(desk: Desk, day: date, blocks: Iterable[Block]) -> tuple[PlanLine, ...]:
    numbers = {task.id: task.number for task in tasks_for(desk, day)}
    return tuple(PlanLine(each.starts, each.ends, each.title, numbers.get(each.task_id or 0)) for each in blocks)


def _in_titles(remedies: tuple[Remedy, ...], by_key: dict[str, Candidate]) -> tuple[Remedy, ...]:
    """Remedies that name a thing by its key name it by its title instead."""
    return tuple(Without(by_key[each.key].block.title) if isinstance(each, Without) else each for each in remedies)
