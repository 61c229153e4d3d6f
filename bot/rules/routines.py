"""On which days a routine falls."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

from bot.rules.occurrences import occurrences
from storage.records import Commitment, Routine


def days_of(routine: Routine, first: date, last: date) -> frozenset[date]:
    """The days from ``first`` to ``last`` that the routine's rule, counted from the day it was made, names. Raises RuleFault."""
    # A rule names days here, not instants: noon of a zone without clock changes stands for the day.
    noon = datetime.combine(routine.since, time(12), UTC)
    day_of_rule = Commitment(0, routine.title, noon, noon + timedelta(minutes=1), "UTC", rule=routine.rule)
    return frozenset(each.day for each in occurrences([day_of_rule], first, last, "UTC"))


def falls_on(routine: Routine, day: date) -> bool:
    """Whether it names ``day``. Raises RuleFault."""
    return day in days_of(routine, day, day)
