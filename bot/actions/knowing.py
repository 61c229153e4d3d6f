"""What the language must know of the person: the context of a reply."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, time

from bot.actions.agenda import agenda, busy_on
from bot.actions.clock import running_words
from bot.actions.commitments import LOOK_AHEAD
from bot.actions.naming import category_names
from bot.actions.open_tasks import open_for
from bot.actions.routine_days import as_it_lasts
from bot.actions.today import local_now, this_month, this_week, today
from bot.language.context import Context, Named, Planned
from bot.rules.local_time import ONE_DAY, local, local_day
from bot.rules.unlogged import unlogged
from bot.rules.weeks import last_of_week
from storage.desk import Desk
from storage.records import Block, Horizon, Occurrence, Stint


def context_of(desk: Desk) -> Context:
    """The person's categories, open tasks, running clock and planned hours, at the desk's instant."""
    person = desk.person
    jobs = {job.category_id for job in desk.jobs.all()}
    running, noted = running_words(desk), desk.stints.between(today(desk) - ONE_DAY, today(desk))
    stints = tuple(each for each in noted if each.day == today(desk))
    busy = [each for each in busy_on(desk, today(desk)) if each.category_id is not None]
    fixed, blocks = _planned(desk, [each for each in busy if each.day == today(desk)], stints)
    return Context(
        now=local_now(desk),
        categories=tuple(Named(each.name, each.aliases, each.section, each.id in jobs) for each in desk.categories.all()),
        sections=tuple(section.name for section in desk.sections.all()),
        waking_start=person.waking_start,
        waking_end=person.waking_end,
        week_starts=person.week_starts,
        date_order=person.date_order,
        tasks=tuple((task.number, task.title) for task in open_for(desk, today(desk))),
        goals=tuple(goal.title for goal in desk.goals.open_for(Horizon.MONTH, this_month(desk))),
        week_goals=_week_goals(desk),
        titles=_titles(desk),
        fixed=_fixed(desk),
        clocked_in=running[0] if running else None,
        clocked_since=_since(desk, running[1]) if running else None,
        routines=tuple(routine.title for routine in desk.routines.all()),
        planned=fixed,
        ran_in=tuple(_words_of(desk, category_names(desk), each, told=False) for each in busy if each.day < today(desk)),
        blocks=blocks,
        last_end=_last_end(desk, stints),
        ran_over=any(_ends_today(desk, each) for each in noted if each.day < today(desk)),
    )


def _titles(desk: Desk) -> tuple[str, ...]:
    """The goals of the week, and what was or is fixed in it until today."""
    return (*_week_goals(desk), *(each.title for each in agenda(desk, this_week(desk), today(desk))))


def _week_goals(desk: Desk) -> tuple[str, ...]:
    return tuple(goal.title for goal in desk.goals.open_for(Horizon.WEEK, this_week(desk)))


def _fixed(desk: Desk) -> tuple[str, ...]:
    """What is fixed from today to the week's end, and all that recurs. Nothing is read for it that was not read for today."""
    last = last_of_week(today(desk), desk.person.week_starts)
    recurring = (each.title for each in desk.commitments.recurring(desk.now + LOOK_AHEAD) if not each.cancelled)
    return tuple(dict.fromkeys((*(each.title for each in agenda(desk, today(desk), last)), *recurring)))


def _since(desk: Desk, starts: datetime) -> time | None:
    """The local time at which the running clock was started; None where that was on another day."""
    return local(starts, desk.person.zone).time() if local_day(starts, desk.person.zone) == today(desk) else None


def _last_end(desk: Desk, stints: tuple[Stint, ...]) -> time | None:
    """The local time at which the latest of today's hours ended; None where none has a time, or they end on another day."""
    ends = [local(each.ends, desk.person.zone) for each in stints if each.ends is not None]
    return max(ends).time() if ends and max(ends).date() == today(desk) else None


def _ends_today(desk: Desk, stint: Stint) -> bool:
    return stint.ends is not None and local_day(stint.ends, desk.person.zone) == today(desk)


def _planned(desk: Desk, fixed: list[Occurrence], stints: tuple[Stint, ...]) -> tuple[tuple[Planned, ...], tuple[Planned, ...]]:
    """Today's commitments, and the blocks in a category that were accepted, each with whether hours tell of it."""
    blocks = [block for block in desk.blocks.on(today(desk)) if block.accepted and block.category_id is not None]
    both: list[Occurrence | Block] = [*fixed, *blocks]
    silent = unlogged(both, stints, max((each.ends for each in both), default=desk.now))
    names = category_names(desk) if both else {}
    return (
        tuple(_words_of(desk, names, each, told=each not in silent) for each in fixed),
        tuple(_words_of(desk, names, each, told=each not in silent) for each in blocks),
    )


def _words_of(desk: Desk, names: Mapping[int, str], planned: Occurrence | Block, *, told: bool) -> Planned:
    starts, ends = local(planned.starts, desk.person.zone).time(), local(as_it_lasts(desk, planned).ends, desk.person.zone).time()
    name = names[planned.category_id or 0]
    if isinstance(planned, Occurrence):
        return Planned(name, starts, ends, planned.title, told=told)
    return Planned(name, starts, ends, planned.title, planned.task_id, planned.routine_id is not None, told)
