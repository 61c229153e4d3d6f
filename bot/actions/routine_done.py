"""A routine told as done by its name: "done exercise"."""

from __future__ import annotations

from bot.actions.hours import log
from bot.actions.matching import best_match
from bot.actions.naming import category_name
from bot.actions.picking import nameable
from bot.actions.routine_days import done_between
from bot.actions.today import today
from bot.language.meaning import Close, Log, SaidStint
from bot.voice.replies import Reply, TaskChanged, TasksChanged
from storage.desk import Desk
from storage.records import Routine


def routine_meant(desk: Desk, words: str | None) -> Routine | None:
    """The routine that the words name; where they name a task or a goal too, only if they are its very title and not that one's."""
    routines = desk.routines.all() if words is not None else ()
    if words is None or not routines:
        return None
    titled = next((each for each in routines if each.title.lower() == words.lower()), None)
    other = best_match(words, [(each.title, each) for each in nameable(desk)])
    if other is None:
        return titled or best_match(words, [(each.title, each) for each in routines])
    return titled if other.title.lower() != words.lower() else None


def do_routine(desk: Desk, said: Close, routine: Routine) -> Reply:
    """Keeps the routine's length, or the minutes said, as hours of the day said, or today; once a day, but for minutes that are said."""
    day = said.day or today(desk)
    if said.minutes is None and (routine.id, day) in done_between(desk, day, day):
        return TasksChanged("closed", (TaskChanged(routine.title, "done"),))
    category = said.category or category_name(desk, routine.category_id)
    return log(desk, Log((SaidStint(category, day, said.minutes or routine.minutes, note=routine.title),)))
