"""Where tasks and goals are pushed to.

target := day | ["next" | "the"] "week" | "this week" | ["next" | "the"] "month" | month      this month or the next
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Literal, TypeAlias

from bot.language.month_names import MONTHS
from bot.language.phrase import Phrase, opened_by
from bot.language.slots import day_alone
from bot.language.took_said import is_over

TOWARDS = frozenset({"to", "till", "until", "til", "for", "on", "by", "into", "onto", "towards", "back"})
Target: TypeAlias = date | Literal["week", "this week", "month", "next month"]
WEEK = opened_by("next week's goals | next week | the next week | the week | week")
THIS_WEEK = opened_by("this week's goals | this week | my week | the current week")
MONTH = opened_by("the month | month | this month | the month's goals | this month's goals")
NEXT_MONTH = opened_by("next month | the next month | next month's goals")


def target(phrase: Phrase, at: int) -> Target | None:
    """Where to, up to the end of the phrase; tomorrow when nothing more is said."""
    if is_over(phrase, at):
        return tomorrow(phrase)
    start = at
    while phrase.word(start) in TOWARDS and start < at + 2:
        start += 1
    to = _goals_or_day(phrase, start)
    return to if to is not None or start == at else _goals_or_day(phrase, at)


def _goals_or_day(phrase: Phrase, at: int) -> Target | None:
    week, this_week = WEEK(phrase, at), THIS_WEEK(phrase, at)
    if this_week and is_over(phrase, at + this_week):
        return "this week"
    if week and is_over(phrase, at + week):
        return "week"
    month = _month(phrase, at)
    if month is not None:
        return month
    day = day_alone(phrase, at)
    return day.value if day is not None and is_over(phrase, day.end) else None


def _month(phrase: Phrase, at: int) -> Literal["month", "next month"] | None:
    """This month or the next one, by its name too."""
    this, following = MONTH(phrase, at), NEXT_MONTH(phrase, at)
    if this and is_over(phrase, at + this):
        return "month"
    if following and is_over(phrase, at + following):
        return "next month"
    named = MONTHS.get(phrase.word(at)) if is_over(phrase, at + 1) else None
    ahead = (named - phrase.context.now.month) % 12 if named else None
    return "month" if ahead == 0 else "next month" if ahead == 1 else None


def tomorrow(phrase: Phrase) -> date:
    """The day to which a push without a target goes."""
    return phrase.context.now.date() + timedelta(days=1)
