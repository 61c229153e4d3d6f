"""On which days a routine falls."""

from __future__ import annotations

from datetime import date, datetime, time

from bot.rules.occurrences import walls
from storage.records import Routine


def days_of(routine: Routine, first: date, last: date) -> frozenset[date]:
    """The days from ``first`` to ``last`` that the routine's rule, counted from the day it was made, names. Raises RuleFault."""
    # A rule names days here, not instants: noon of a zone without clock changes stands for the day.
    noon = datetime.combine(routine.since, time(12))
    named = walls(routine.rule, noon, "UTC", datetime.combine(first, time.min), datetime.combine(last, time.max))
    return frozenset(wall.date() for wall in named)


def falls_on(routine: Routine, day: date) -> bool:
    """Whether it names ``day``. Raises RuleFault."""
    return day in days_of(routine, day, day)
