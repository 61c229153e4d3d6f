"""The morning message and the evening's question: what each has to tell, and what it does on the way."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bot.actions.agenda import busy_on
from bot.actions.clock import running_words
from bot.actions.day_plan import propose
from bot.actions.goals import carry_untouched
from bot.actions.naming import category_names
from bot.actions.routine_days import as_it_lasts
from bot.actions.task_time import as_left
from bot.actions.tasks import pushed
from bot.actions.today import today
from bot.actions.views import day_view
from bot.rules.local_time import ONE_DAY, instant_of
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
    day = today(desk)
    left = desk.tasks.open_before(day)
    for number, task in enumerate(left, desk.tasks.next_number(day) if left else 1):
        desk.tasks.change(pushed(task, day, number))


def morning_again(desk: Desk, *, late: bool = False) -> MorningMessage:
    """The morning message of today anew, with the plan as it is best now. The weather it tells is kept for the recap."""
    yesterday = today(desk) - timedelta(days=1)
    asked = instant_of(yesterday, desk.person.evening_at, desk.person.zone)
    missing = _without_hours(desk, yesterday, asked)
    plan = propose(desk, today(desk))
    view = day_view(desk, today(desk))
    if view.weather is not None:
        desk.weather.put(told_of(view.weather))
    return MorningMessage(view, plan, missing, late)


def evening(desk: Desk, day: date, *, late: bool = False) -> Reply | None:
    """What ``day`` leaves open, or None when that is nothing."""
    asked = instant_of(day, desk.person.morning_at, desk.person.zone)
    tasks, missing, running = as_left(desk, desk.tasks.open_on(day)), _without_hours(desk, day, asked), running_words(desk)
    return EveningNudge(day, tasks, missing, running, late) if tasks or missing or running else None


def _without_hours(desk: Desk, day: date, asked: datetime) -> tuple[tuple[str, Planned], ...]:
    """What was planned for ``day`` in a category, is over, and has no hours; with the category's name.

    So is what ran into the day and ended after it was last ``asked`` what has none: a night watch until seven.
    A task that is still open and has gone on to another day took its hours along. A sick day has none to tell.
    """
    names = category_names(desk)
    gone_on = {task.id for task in desk.tasks.open_after(day)}
    blocks = [each for each in desk.blocks.between(day - ONE_DAY, day) if each.accepted and each.task_id not in gone_on]
    around: list[Planned] = [*busy_on(desk, day), *blocks]
    planned = [each for each in around if each.day == day or each.ends > asked]
    stints = desk.stints.between(min((each.day for each in planned), default=day) - ONE_DAY, day + ONE_DAY)
    missing = unlogged(planned, stints, desk.now)
    if missing and desk.sick_days.on(day):
        return ()
    return tuple((names[each.category_id], as_it_lasts(desk, each)) for each in missing if each.category_id is not None)
