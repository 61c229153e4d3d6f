"""What is to be called off: a commitment, or a routine, a task or a goal that was named as if it were one."""

from __future__ import annotations

from bot.actions.commitments import cancel
from bot.actions.picking import all_fitting
from bot.actions.refused import Stopped, refused
from bot.actions.routine_done import routine_meant
from bot.actions.shifting import not_today
from bot.actions.tasks import drop
from bot.actions.today import today
from bot.language.meaning import Cancel, Drop
from bot.language.pick import Pick
from bot.language.plan_meaning import NotToday
from bot.voice.replies import Refusal, Reply
from storage.desk import Desk


def call_off(desk: Desk, said: Cancel) -> Reply:
    """Cancels the commitment meant; where there is none of that name, what else is called so is dropped or left out of the day."""
    try:
        return cancel(desk, said)
    except Stopped as stopped:
        instead = _instead(desk, said) if isinstance(stopped.reply, Refusal) and said.start is None else None
        if instead is None:
            raise
        return instead


def _instead(desk: Desk, said: Cancel) -> Reply | None:
    """A routine asks for how long, unless a day was said; of tasks and goals only the very title will do. None for anything else."""
    routine, words = routine_meant(desk, said.words), said.words or ""
    if routine is not None and said.day is not None:
        if said.day != today(desk) or said.last is not None:
            raise refused("routine another day", routine.title)
        return not_today(desk, NotToday(Pick(words=routine.title)))
    titled = said.day is None and any(each.title.lower() == words.lower() for each in all_fitting(desk, words))
    return drop(desk, Drop(Pick(words=words))) if routine is not None or titled else None
