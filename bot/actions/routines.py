"""Routines and weekly targets: kept, listed, ended."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.actions.matching import best_match
from bot.actions.naming import category_id, category_name, category_named, category_names
from bot.actions.refused import refused
from bot.actions.today import planned_week, today
from bot.language.meaning import AddRoutine, SetTarget, Show
from bot.language.standing_meaning import DropRoutine, DropTarget
from bot.rules.weeks import DAYS_A_WEEK, week_after
from bot.voice.replies import Reply, RoutineAdded, RoutineDropped, RoutinesView, TargetDropped, TargetKept
from storage.desk import Desk
from storage.records import Routine, Target


def add_routine(desk: Desk, said: AddRoutine) -> Reply:
    """Keeps a routine from today on. One of that title is changed to what is said now; its category stays unless another is said."""
    category = category_id(desk, said.category)
    routine = Routine(0, said.title, said.minutes, said.rule, today(desk), said.window_start, said.window_end, category)
    known = next((each for each in desk.routines.all() if each.title.lower() == said.title.lower()), None)
    if known is None:
        kept = desk.routines.add(routine)
    else:
        kept = desk.routines.change(replace(routine, id=known.id, since=known.since, category_id=category or known.category_id))
        _unplan(desk, known)
    return RoutineAdded(kept, category_name(desk, kept.category_id), known is not None)


def drop_routine(desk: Desk, said: DropRoutine) -> Reply:
    """Ends a routine; what was planned for it from today on goes too."""
    routines = desk.routines.all()
    found = _meant(routines, said)
    if found is None:
        raise refused("no such routine", said.words or str(said.number), tuple(each.title for each in routines))
    _unplan(desk, found)
    desk.routines.remove(found.id)
    return RoutineDropped(found)


def _meant(routines: tuple[Routine, ...], said: DropRoutine) -> Routine | None:
    if said.number is not None:
        return routines[said.number - 1] if 0 < said.number <= len(routines) else None
    return best_match(said.words or "", [(each.title, each) for each in routines])


def _unplan(desk: Desk, routine: Routine) -> None:
    for block in desk.blocks.all():
        if block.routine_id == routine.id and block.day >= today(desk) and block.ends > desk.now:
            desk.blocks.remove(block.id)


def set_target(desk: Desk, said: SetTarget) -> Reply:
    """Sets the hours wanted per week in a category, from this week on; late in the week from the next, which has all its days."""
    least, most = said.at_least_minutes, said.at_most_minutes
    if least is not None and most is not None and least > most:
        raise refused("most below least")
    category = category_named(desk, said.category)
    return TargetKept(_keep(desk, Target(0, category.id, _whole_week(desk), least, most)), category.name)


def drop_target(desk: Desk, said: DropTarget) -> Reply:
    """From this week on no hours are wanted in a category; what weeks before wanted stays known."""
    category, since = category_named(desk, said.category), planned_week(desk)
    wanted = [week for week in (since, week_after(since)) if _in_force(desk, category.id, week)]
    if not wanted:
        raise refused("no such target", category.name)
    for week in wanted:
        if _in_force(desk, category.id, week):
            _keep(desk, Target(0, category.id, week))
    return TargetDropped(category.name, wanted[0])


def _whole_week(desk: Desk) -> date:
    """The first day of the week that planning is about or, when less than half of its days are left, of the next."""
    week = planned_week(desk)
    return week_after(week) if 2 * (today(desk) - week).days > DAYS_A_WEEK else week


def _keep(desk: Desk, target: Target) -> Target:
    """The target as it is kept: in place of one for the same week, else beside those of weeks before."""
    known = next((each for each in desk.targets.all() if (each.category_id, each.since) == (target.category_id, target.since)), None)
    return desk.targets.add(target) if known is None else desk.targets.change(replace(target, id=known.id))


def _in_force(desk: Desk, category: int, week: date) -> Target | None:
    return next((each for each in desk.targets.in_force(week) if each.category_id == category), None)


def show_routines(desk: Desk, said: Show) -> Reply:
    """Every routine by its number, and the targets in force."""
    names = category_names(desk)
    routines = tuple((each, None if each.category_id is None else names[each.category_id]) for each in desk.routines.all())
    targets = tuple((each, names[each.category_id]) for each in desk.targets.in_force(week_after(planned_week(desk))))
    return RoutinesView(routines, targets)
