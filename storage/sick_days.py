"""Days on which the person was sick."""

from __future__ import annotations

from sqlalchemy import bindparam

from storage.days import DayShelf
from storage.forms import SICK_DAYS
from storage.records import SickDay
from storage.schema import sick_days


class SickDays(DayShelf[SickDay]):
    """The person's sick days, in their order; a day is one of them once."""

    between_days = SICK_DAYS.mine(sick_days.c.day.between(bindparam("first"), bindparam("last")), order=(sick_days.c.day,))
