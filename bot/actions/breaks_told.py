"""Hours told once more, with a break that was forgotten: it sets right those that are noted."""

from __future__ import annotations

from dataclasses import replace

from bot.actions.hours import log, stint_of
from bot.language.meaning import Log, SaidStint
from bot.voice.replies import Reply
from storage.desk import Desk
from storage.records import Stint


def tell_hours(desk: Desk, said: Log) -> Reply:
    """Keeps the hours; with another break than the same ones of their category have, from start to end, in the place of these."""
    return log(desk, _in_their_place(desk, said))


def _in_their_place(desk: Desk, said: Log) -> Log:
    """A break is all that is new of them, so nothing of the task or the note is lost."""
    (told, *others) = said.stints
    noted = None if others or said != Log((told,)) else _noted_with_another_break(desk, told)
    if noted is None:
        return said
    tasks = told.task_ids if told.tasks or told.task_ids else noted.task_ids
    return Log((replace(told, note=told.note or noted.note, task_ids=tasks),), corrects=noted.id)


def _noted_with_another_break(desk: Desk, told: SaidStint) -> Stint | None:
    """The hours from the same start to the same end. Without a break they are likelier told twice, which is asked about."""
    if told.category is None or told.start is None or told.end is None or not told.break_minutes:
        return None
    stint = stint_of(desk, told)
    there = (each for each in desk.stints.on(stint.day) if _when(each) == _when(stint))
    return next((each for each in there if each.break_minutes != stint.break_minutes), None)


def _when(stint: Stint) -> tuple[object, ...]:
    return stint.category_id, stint.starts, stint.ends
