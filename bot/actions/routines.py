"""Routines and weekly targets."""

from __future__ import annotations

from dataclasses import replace

from bot.actions.naming import category_id, category_name, category_named
from bot.actions.refused import refused
from bot.actions.today import planned_week, today
from bot.language.meaning import AddRoutine, SetTarget
from bot.voice.replies import Reply, RoutineAdded, TargetKept
from storage.desk import Desk
from storage.records import Routine, Target


def add_routine(desk: Desk, said: AddRoutine) -> Reply:
    """Keeps a routine from today on."""
    category = category_id(desk, said.category)
    routine = Routine(0, said.title, said.minutes, said.rule, today(desk), said.window_start, said.window_end, category)
    return RoutineAdded(desk.routines.add(routine), category_name(desk, category))


def set_target(desk: Desk, said: SetTarget) -> Reply:
    """Sets the hours wanted per week in a category, from this week on."""
    least, most = said.at_least_minutes, said.at_most_minutes
    if least is not None and most is not None and least > most:
        raise refused("most below least")
    category = category_named(desk, said.category)
    since = planned_week(desk)
    now = next((each for each in desk.targets.in_force(since) if each.category_id == category.id), None)
    if now is not None and now.since == since:
        target = desk.targets.change(replace(now, at_least_minutes=least, at_most_minutes=most))
    else:
        target = desk.targets.add(Target(0, category.id, since, least, most))
    return TargetKept(target, category.name)
