"""Hours told by the plan of a day: what of it is over is logged, what is still to come is told."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from bot.actions.agenda import busy_on
from bot.actions.hours import AHEAD, log
from bot.actions.naming import category_id, category_name
from bot.actions.refused import Stopped, refused
from bot.actions.routine_days import as_it_lasts
from bot.actions.today import today
from bot.language.meaning import Log, SaidStint
from bot.language.plan_meaning import AsPlanned
from bot.rules.local_time import ONE_DAY, elapsed_minutes, local
from bot.rules.planned import Planned, purpose_of
from bot.rules.spans import Span, merged, shared
from bot.rules.unlogged import unlogged
from bot.voice.manners import manners_of, title_text
from bot.voice.replies import Logged, Reply, StillToCome
from storage.desk import Desk
from storage.records import Stint


def as_planned(desk: Desk, said: AsPlanned) -> Reply:
    """Logs what was planned, is over and has no hours yet. What all has hours already is told as any hours in the way are."""
    planned = _meant(desk, said)
    if not planned and said.category is not None and said.day == today(desk):
        raise refused("nothing planned today", title_text(said.category))
    if not planned:
        about = title_text(said.category or said.words or "anything")
        raise refused("nothing planned", f"{about} {manners_of(desk.person, desk.now).near_day(said.day)}")
    over = [each for each in planned if each.ends <= desk.now + AHEAD]
    ahead = tuple(_stint(desk, each) for each in planned if each not in over)
    if not over:
        first, under_way = ahead[0], planned[0].starts <= desk.now
        raise Stopped(StillToCome(Log(ahead[:1]), first.category or "", first.day, first.start, first.end, under_way))
    stints = desk.stints.between(said.day - 2 * ONE_DAY, said.day + ONE_DAY)
    silent = unlogged(over, stints, desk.now + AHEAD)
    in_part = tuple(_stint(desk, each) for each in over if silent and _is_told_in_part(each, stints))
    missing = [as_it_lasts(desk, each) for each in silent or over]
    done = log(desk, Log(_less(said.break_minutes, [_stint(desk, each) for each in missing])))
    return replace(done, by_plan=True, ahead=ahead, in_part=in_part) if isinstance(done, Logged) else done


def _is_told_in_part(planned: Planned, stints: Iterable[Stint]) -> bool:
    """Whether hours with times tell of a part of it, and leave another."""
    timed = (Span(each.starts, each.ends) for each in stints if each.starts and each.ends and each.category_id == planned.category_id)
    told = merged(part for each in timed if (part := shared(planned, each)) is not None)
    return 0 < sum(each.minutes for each in told) < elapsed_minutes(planned.starts, planned.ends)


def _meant(desk: Desk, said: AsPlanned) -> list[Planned]:
    """Commitments and accepted blocks of the day; of today what ran in from yesterday, too."""
    blocks = [block for block in desk.blocks.on(said.day) if block.accepted]
    here: list[Planned] = [each for each in busy_on(desk, said.day) if each.day == said.day or said.day == today(desk)]
    planned = [each for each in (*here, *blocks) if each.category_id is not None or said.words is not None]
    if said.category is not None:
        planned = [each for each in planned if each.category_id == category_id(desk, said.category)]
    if said.words is not None:
        planned = [each for each in planned if _words(said.words) <= _words(each.title)]
    return sorted(planned, key=lambda each: (each.starts, each.ends))


def _words(text: str) -> set[str]:
    return {word.strip("().,:;") for word in text.casefold().replace("’", "'").split()}


def _stint(desk: Desk, planned: Planned) -> SaidStint:
    starts, ends = (local(instant, desk.person.zone) for instant in (planned.starts, planned.ends))
    name, minutes = category_name(desk, planned.category_id), elapsed_minutes(planned.starts, planned.ends)
    note, task_ids = purpose_of(planned)
    return SaidStint(name, starts.date(), minutes, starts.time(), ends.time(), note=note, task_ids=task_ids)


def _less(pause: int, stints: Sequence[SaidStint]) -> tuple[SaidStint, ...]:
    """The break comes off the longest."""
    longest = max(stints, key=lambda each: each.minutes)
    return tuple(replace(each, minutes=each.minutes - pause, break_minutes=pause) if each is longest else each for each in stints)
