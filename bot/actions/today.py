"""The person's own day and hours, from the desk's instant."""

from __future__ import annotations

from datetime import date, datetime
from functools import lru_cache

from bot.rules.local_time import local
from bot.rules.weeks import first_of_month, first_of_next_month, first_of_week, last_of_month, last_of_week, week_after
from storage.desk import Desk


def today(desk: Desk) -> date:
    """The local day it is for the person."""
    return local_now(desk).date()


def local_now(desk: Desk) -> datetime:
    """What the person's clock shows, aware of the zone."""
    return _local(desk.now, desk.person.zone)


# One unit of work asks this of its moment some dozens of times.
_local = lru_cache(maxsize=64)(local)


def this_week(desk: Desk) -> date:
    """The first day of the person's current week."""
    return first_of_week(today(desk), desk.person.week_starts)


def planned_week(desk: Desk) -> date:
    """The first day of the week that planning is about: the current one, and from its recap on the next."""
    week = this_week(desk)
    return week_after(week) if _recap_was(desk, last_of_week(week, desk.person.week_starts)) else week


def this_month(desk: Desk) -> date:
    """The first day of the current month."""
    return first_of_month(today(desk))


def planned_month(desk: Desk) -> date:
    """The first day of the month that planning is about: the current one, and from its recap on the next."""
    month = this_month(desk)
    return first_of_next_month(month) if _recap_was(desk, last_of_month(month)) else month


def _recap_was(desk: Desk, last_day: date) -> bool:
    """Whether today is the last day of a span and the time of its recap has come."""
    return today(desk) == last_day and local_now(desk).time() >= desk.person.recap_at
