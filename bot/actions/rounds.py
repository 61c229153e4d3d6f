"""The three messages that come unasked: what each has to tell, and what it does on the way."""

from __future__ import annotations

from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.goals import carry_untouched
from bot.actions.naming import category_names
from bot.actions.tally import hours_between
from bot.actions.tasks import pushed
from bot.actions.today import today
from bot.actions.views import day_view, week_ahead
from bot.rules.unlogged import unlogged
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice.replies import EveningNudge, MorningMessage, Recap, Reply
from storage.desk import Desk
from storage.records import GoalState, Horizon, Occurrence


def morning(desk: Desk, *, late: bool = False) -> MorningMessage:
    """The day ahead. Open tasks of earlier days come over, and goals of earlier weeks and months carry by themselves."""
    rolled = _roll_over(desk)
    carried = carry_untouched(desk)
    return MorningMessage(day_view(desk, today(desk)), rolled, tuple(goal.title for goal in carried), late)


def _roll_over(desk: Desk) -> tuple[str, ...]:
    """Pushes every open task of an earlier day to today; gives their titles.

    Source: an unfinished task goes to the next day (common practice, no source).
    """
    left = desk.tasks.open_before(today(desk))
    for task in left:
        desk.tasks.change(pushed(desk, task, today(desk)))
    return tuple(task.title for task in left)


def morning_again(desk: Desk) -> MorningMessage:
    """The morning message of today anew, with nothing done on the way."""
    return MorningMessage(day_view(desk, today(desk)))


def evening(desk: Desk, day: date, *, late: bool = False) -> Reply | None:
    """What ``day`` leaves open, or None when that is nothing."""
    tasks = desk.tasks.open_on(day)
    names = category_names(desk)
    missing = tuple((names[o.commitment.category_id], o) for o in _without_hours(desk, day) if o.commitment.category_id is not None)
    return EveningNudge(day, tasks, missing, late) if tasks or missing else None


def _without_hours(desk: Desk, day: date) -> tuple[Occurrence, ...]:
    planned = [each for each in agenda(desk, day, day) if not each.commitment.all_day]
    return unlogged(planned, desk.stints.between(day - timedelta(days=1), day + timedelta(days=1)), desk.now)


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
    )
