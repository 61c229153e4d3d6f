"""A month: as it stands, and as it ends."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date

from bot.actions.agenda import agenda
from bot.actions.naming import category_names
from bot.actions.tally import hours_between, minutes_before
from bot.actions.today import today
from bot.language.meaning import Show
from bot.rules.hours import planned_by_category
from bot.rules.local_time import ONE_DAY
from bot.rules.planned import Planned
from bot.rules.unlogged import unlogged
from bot.rules.weeks import first_of_month, last_of_month
from bot.voice.replies import MonthRecap, MonthView
from storage.desk import Desk
from storage.records import GoalState, Horizon

FULLEST_DAYS = 3


def show_month(desk: Desk, said: Show) -> MonthView:
    """The month of the day asked for: hours beside those of the month before, pending goals, fullest days."""
    first = first_of_month(said.day or said.first or today(desk))
    last = last_of_month(first)
    before = minutes_before(desk, first, last)
    per_day = Counter(o.day for o in agenda(desk, first, last) if o.commitment.major)
    fullest = tuple((day, n) for day, n in sorted(per_day.items(), key=lambda item: (-item[1], item[0]))[:FULLEST_DAYS] if n > 1)
    hours = hours_between(desk, first, last, desk.stints.minutes_by_category(first, last), before=before[1] if before else None)
    return MonthView(first, hours, desk.goals.open_for(Horizon.MONTH, first), before[0] if before else None, fullest)


def month_recap_asked(desk: Desk, said: Show) -> MonthRecap:
    """The recap of the month asked for; of one that is not over as it stands today."""
    last = said.last or last_of_month(today(desk))
    return replace(month_recap(desk, min(last, today(desk))), so_far=last > today(desk))


def month_recap(desk: Desk, day: date, *, late: bool = False) -> MonthRecap:
    """The month that ends with ``day``, and which of its goals are met and which wait."""
    first = first_of_month(day)
    before = minutes_before(desk, first, day)
    goals = desk.goals.for_period(Horizon.MONTH, first)
    return MonthRecap(
        first,
        hours_between(desk, first, day, desk.stints.minutes_by_category(first, day), before=before[1] if before else None),
        tuple(goal for goal in goals if goal.state is GoalState.MET),
        tuple(goal for goal in goals if goal.state is GoalState.OPEN),
        before[0] if before else None,
        late,
        to_come=_to_come(desk, day, last_of_month(day)),
    )


def _to_come(desk: Desk, first: date, last: date) -> tuple[tuple[str, int], ...]:
    """The planned hours of these days that are not over and not told of yet, as names and minutes of categories."""
    fixed: list[Planned] = [each for each in agenda(desk, first - ONE_DAY, last) if each.commitment.blocks_hours]
    blocks = [each for each in desk.blocks.between(first - ONE_DAY, last) if each.accepted]
    ahead = [each for each in (*fixed, *blocks) if each.ends > desk.now]
    until = max((each.ends for each in ahead), default=desk.now)
    minutes = planned_by_category(unlogged(ahead, desk.stints.between(first - ONE_DAY, last), until), ())
    return tuple((name, minutes[id]) for id, name in category_names(desk).items() if minutes.get(id))
