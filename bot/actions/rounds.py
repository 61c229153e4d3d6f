"""The morning message and the evening's question: what each has to tell, and what it does on the way."""

from __future__ import annotations

from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.clock import running_words
from bot.actions.day_plan import propose
from bot.actions.goals import carry_untouched
from bot.actions.naming import category_names
from bot.actions.task_time import as_left
from bot.actions.tasks import pushed
from bot.actions.today import today
from bot.actions.views import day_view
from bot.rules.planned import Planned
from bot.rules.unlogged import unlogged
from bot.rules.week_weather import told_of
from bot.voice.replies import EveningNudge, MorningMessage, Reply
from storage.desk import Desk


def morning(desk: Desk, *, late: bool = False) -> MorningMessage:
    """The day ahead. Open tasks of earlier days come over, and goals of earlier weeks and months carry by themselves."""
    carry_on(desk)
    return morning_again(desk, late=late)


def carry_on(desk: Desk) -> None:
    """What a morning does by itself, told or not."""
    _roll_over(desk)
    carry_untouched(desk)


def _roll_over(desk: Desk) -> None:
    """Pushes every open task of an earlier day to today.

    Source: an unfinished task goes to the next day (common practice, no source).
    """
    for task in desk.tasks.open_before(today(desk)):
        desk.tasks.change(pushed(desk, task, today(desk)))


def morning_again(desk: Desk, *, late: bool = False) -> MorningMessage:
    """The morning message of today anew, with the plan as it is best now. The weather it tells is kept for the recap."""
    yesterday = today(desk) - timedelta(days=1)
    plan = propose(desk, today(desk))
    view = day_view(desk, today(desk))
    if view.weather is not None:
        desk.weather.put(told_of(view.weather))
    return MorningMessage(view, plan, _without_hours(desk, yesterday), late)


def evening(desk: Desk, day: date, *, late: bool = False) -> Reply | None:
    """What ``day`` leaves open, or None when that is nothing."""
    tasks, missing, running = as_left(desk, desk.tasks.open_on(day)), _without_hours(desk, day), running_words(desk)
    return EveningNudge(day, tasks, missing, running, late) if tasks or missing or running else None


def _without_hours(desk: Desk, day: date) -> tuple[tuple[str, Planned], ...]:
    """What was planned for ``day`` in a category, is over, and has no hours; with the category's name.

    A task that is still open and has gone on to another day took its hours along.
    """
    names = category_names(desk)
    fixed: list[Planned] = [each for each in agenda(desk, day, day) if each.commitment.blocks_hours]
    gone_on = {task.id for task in desk.tasks.open_after(day)}
    blocks = [block for block in desk.blocks.on(day) if block.accepted and block.task_id not in gone_on]
    stints = desk.stints.between(day - timedelta(days=1), day + timedelta(days=1))
    return tuple((names[each.category_id], each) for each in unlogged([*fixed, *blocks], stints, desk.now) if each.category_id is not None)
