"""What is fixed in the days to come."""

from __future__ import annotations

from datetime import date, timedelta

from bot.rules.occurrences import occurrences
from storage.desk import Desk
from storage.records import Commitment

SIX_DAYS = timedelta(days=6)


def coming_days(desk: Desk, commitment: Commitment, first: date) -> tuple[date, ...]:
    """The days on which it takes place within a week that begins with ``first``."""
    return tuple(each.day for each in occurrences((commitment,), first, first + SIX_DAYS, desk.person.zone))
