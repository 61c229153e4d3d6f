"""A routine told as done by its name: "done exercise"."""

from __future__ import annotations

from datetime import date, timedelta

from bot.actions.hours import log
from bot.actions.matching import best_match
from bot.actions.naming import category_name
from bot.actions.picking import nameable
from bot.actions.refused import Stopped
from bot.actions.routine_days import done_between, unplan
from bot.actions.today import today
from bot.language.meaning import Close, Log, SaidStint
from bot.language.pick import Pick
from bot.voice.replies import Question, Reply, RoutineDone, TaskChanged, TasksChanged
from storage.desk import Desk
from storage.records import Routine, Task, TaskState

LATELY = timedelta(days=62)
"""For how long it is not asked anew; common practice, no source."""


def routine_meant(desk: Desk, words: str | None) -> Routine | None:
    """The routine that the words name; where they name a task or a goal too, only if they are its very title and not that one's."""
    routines = desk.routines.all() if words is not None else ()
    if words is None or not routines:
        return None
    titled = next((each for each in routines if each.title.lower() == words.lower()), None)
    titles = {each.title.lower() for each in routines}
    # A closed task of a routine's title says that it was done without hours.
    others = [each for each in nameable(desk) if each.state is not TaskState.CLOSED or each.title.lower() not in titles]
    other = best_match(words, [(each.title, each) for each in others])
    if other is None:
        return titled or best_match(words, [(each.title, each) for each in routines])
    return titled if other.title.lower() != words.lower() else None


def do_routine(desk: Desk, said: Close, routine: Routine) -> Reply:
    """Keeps the routine's length, or the minutes said, as hours of the day said, or today; once a day, but for minutes that are said.

    Of one that has no category it is asked whether it has hours at all; once it had none, it has none until it has a category.
    """
    day = said.day or today(desk)
    if not said.minutes and (routine.id, day) in done_between(desk, day, day):
        return TasksChanged("closed", (TaskChanged(routine.title, "done"),))
    if said.minutes == 0:
        return _without_hours(desk, routine, day)
    category = said.category or category_name(desk, routine.category_id)
    told = Log((SaidStint(category, day, said.minutes or routine.minutes, note=routine.title),))
    try:
        return log(desk, told)
    except Stopped as stopped:
        if said.minutes or not isinstance(stopped.reply, Question):
            raise
        if _had_no_hours(desk, routine):
            return _without_hours(desk, routine, day)
        return Question((Close(Pick(words=routine.title), 0, day=said.day), *stopped.reply.choices))


def _had_no_hours(desk: Desk, routine: Routine) -> bool:
    """Whether it was done without hours not long before."""
    lately = desk.tasks.settled_between(today(desk) - LATELY, today(desk))
    return any(each.state is TaskState.CLOSED and each.title.lower() == routine.title.lower() for each in lately)


def _without_hours(desk: Desk, routine: Routine, day: date) -> RoutineDone:
    """A closed task of its title says that it was done: hours would need a category."""
    desk.tasks.add(Task(0, routine.title, day, desk.tasks.next_number(day), state=TaskState.CLOSED, settled=day))
    unplan(desk, routine, day)
    return RoutineDone(routine.title, day)
