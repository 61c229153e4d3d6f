"""The three messages that come unasked: what each has to tell, and what it does on the way."""

from __future__ import annotations

from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.clock import running_words
from bot.actions.day_plan import propose
from bot.actions.goals import carry_untouched
from bot.actions.naming import category_names
from bot.actions.tally import hours_between
from bot.actions.tasks import pushed
from bot.actions.today import today
from bot.actions.views import day_view, week_ahead
from bot.actions.working_time import work_notes
from bot.rules.planned import Planned
from bot.rules.unlogged import unlogged
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice.replies import EveningNudge, MorningMessage, Recap, Reply
from storage.desk import Desk
from storage.records import GoalState, Horizon


def morning(desk: Desk, *, late: bool = False) -> MorningMessage:
    """The day ahead. Open tasks of earlier days come over, and goals of earlier weeks and months carry by themselves."""
    _roll_over(desk)
    carry_untouched(desk)
    return morning_again(desk, late=late)


def _roll_over(desk: Desk) -> None:
    """Pushes every open task of an earlier day to today.

    Source: an unfinished task goes to the next day (common practice, no source).
    """
    for task in desk.tasks.open_before(today(desk)):
        desk.tasks.change(pushed(desk, task, today(desk)))


def morning_again(desk: Desk, *, late: bool = False) -> MorningMessage:
    """The morning message of today anew, with the plan as it is best now."""
    yesterday = today(desk) - timedelta(days=1)
    plan = propose(desk, today(desk))
    return MorningMessage(day_view(desk, today(desk)), plan, _without_hours(desk, yesterday), late)


def evening(desk: Desk, day: date, *, late: bool = False) -> Reply | None:
    """What ``day`` leaves open, or None when that is nothing."""
    tasks, missing, running = desk.tasks.open_on(day), _without_hours(desk, day), running_words(desk)
    return EveningNudge(day, tasks, missing, running, late) if tasks or missing or running else None


def _without_hours(desk: Desk, day: date) -> tuple[tuple[str, Planned], ...]:
    """What was planned for ``day`` in a category, is over, and has no hours; with the category's name."""
    names = category_names(desk)
    fixed: list[Planned] = [each for each in agenda(desk, day, day) if each.commitment.blocks_hours]
    blocks = [block for block in desk.blocks.on(day) if block.accepted]
    stints = desk.stints.between(day - timedelta(days=1), day + timedelta(days=1))
    return tuple((names[each.category_id], each) for each in unlogged([*fixed, *blocks], stints, desk.now) if each.category_id is not None)


def recap(desk: Desk, day: date, *, late: bool = False) -> Recap:
    """The week that ends with ``day``, and the week ahead."""
    first = day - timedelta(days=DAYS_A_WEEK - 1)
    goals = desk.goals.for_period(Horizon.WEEK, first)
    return Recap(
        first,
        day,
        hours_between(desk, first, day, planned=True),
        tuple(goal for goal in goals if goal.state is GoalState.MET),
        tuple(goal for goal in goals if goal.state is GoalState.OPEN),
        week_ahead(desk, day + timedelta(days=1)),
        late,
        work=work_notes(desk, first, day),
    )
