"""What would make room in a week for a goal that does not fit whole: single changes, of which the mildest is named."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bot.rules.planning.remedies import FillMore, MoreTime, Without
from bot.rules.planning.week import plan_week
from bot.rules.planning.week_asked import OpenWeek, Short, Why

MOST_TRIED: Final = 5
MOST_CASES: Final = 50
"""Each trial is a plan of its own, and nobody waits long for advice. A usual week has a handful of cases. Common practice, no source."""

WeekRemedy = FillMore | Without | MoreTime


def week_remedy(week: OpenWeek, filled: OpenWeek, short: Short) -> WeekRemedy | None:
    """What would give ``short`` all its time: filling hours that are to stay free, giving up another goal, or more time.

    ``filled`` is the same week with no hours kept free. Of goals the least
    valuable that would do is named, and of those the one named last. None
    where its category may have no more: then only the person's own bound is in
    the way.
    """
    if short.why is Why.AT_MOST:
        return None
    if _fits(filled, short.key):
        return FillMore(short.minutes)
    others = sorted([goal for goal in week.goals[::-1] if goal.key != short.key], key=lambda goal: goal.value)
    for other in others[:MOST_TRIED]:
        if _fits(replace(week, goals=tuple(goal for goal in week.goals if goal is not other)), short.key):
            return Without(other.key)
    return MoreTime(short.minutes)


def _fits(week: OpenWeek, key: str) -> bool:
    plan = plan_week(week, MOST_CASES)
    return plan.proven and all(short.key != key for short in plan.short)
