"""On which days a routine was done, and when it is due next.

Hours that have its title for a note say that it was done, and no others; or a closed task of its title, which needs no category.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.actions.matching import best_match
from bot.actions.refused import Stopped, refused
from bot.actions.today import today
from bot.rules.local_time import ONE_DAY
from bot.rules.planned import Planned
from bot.rules.planning.asked import STEP
from bot.rules.routines import days_of
from bot.voice.manners import manners_of
from storage.desk import Desk
from storage.records import Block, Routine, Stint, TaskState

LOOKED_AHEAD = timedelta(days=62)
"""How far ahead the next day of a routine is looked for; common practice, no source."""


def routine_noted(desk: Desk, note: str | None) -> Routine | None:
    """The routine whose title the note is."""
    return next((each for each in desk.routines.all() if note is not None and each.title.lower() == note.lower()), None)


def done_between(desk: Desk, first: date, last: date) -> frozenset[tuple[int, date]]:
    """The routines done on the days from ``first`` to ``last``, each as its id and the day."""
    titles = {routine.title.lower(): routine.id for routine in desk.routines.all()}
    if not titles:
        return frozenset()
    noted = [(each.note, each.day) for each in desk.stints.between(first, last)]
    closed = [(each.title, each.settled) for each in desk.tasks.settled_between(first, last) if each.state is TaskState.CLOSED]
    return frozenset((titles[title.lower()], day) for title, day in (*noted, *closed) if title and day and title.lower() in titles)


def as_it_lasts(desk: Desk, planned: Planned) -> Planned:
    """A routine's hours as long as it is itself where its plan rounded them up to whole steps; all other planned hours as they are."""
    routine = desk.routines.find(planned.routine_id) if isinstance(planned, Block) and planned.routine_id else None
    if routine is None or not isinstance(planned, Block):
        return planned
    own = timedelta(minutes=routine.minutes)
    return replace(planned, ends=planned.starts + own) if own < planned.ends - planned.starts < own + STEP else planned


def note_done(desk: Desk, routine: Routine, stint: Stint) -> bool:
    """What was still planned for it on the day of its hours goes; one without a category takes theirs, which the answer then tells."""
    unplan(desk, routine, stint.day)
    if routine.category_id is not None:
        return False
    desk.routines.change(replace(routine, category_id=stint.category_id))
    return True


def unplan(desk: Desk, routine: Routine, day: date) -> None:
    """What of it is still planned on the day goes."""
    for block in desk.blocks.on(day):
        if block.routine_id == routine.id and block.ends > desk.now:
            desk.blocks.remove(block.id)


def not_planned(desk: Desk, words: str) -> Stopped:
    """That today's plan has nothing of that name; of a routine, when it is due next."""
    routine = best_match(words, [(each.title, each) for each in desk.routines.all()])
    if routine is None:
        return refused("not planned", words)
    days = days_of(routine, today(desk) + ONE_DAY, today(desk) + LOOKED_AHEAD)
    next_day = f", which is due next on {manners_of(desk.person, desk.now).day(min(days))}" if days else ""
    return refused("no routine today", f"“{routine.title}”{next_day}")
