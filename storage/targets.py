"""Targets: hours wanted per week in a category."""

from __future__ import annotations

from datetime import date

from sqlalchemy import bindparam

from storage.forms import TARGETS
from storage.records import Target
from storage.schema import targets
from storage.shelf import Shelf

_SET_BY = TARGETS.mine(targets.c.since <= bindparam("day"), order=(targets.c.since,))


class Targets(Shelf[Target]):
    """The person's targets. A later one for the same category takes over from its week on."""

    def in_force(self, week_first_day: date) -> tuple[Target, ...]:
        """The latest target of each category that was set for this week or an earlier one, by category; none that wants nothing."""
        latest = {target.category_id: target for target in self.many(_SET_BY, day=week_first_day)}
        return tuple(target for _, target in sorted(latest.items()) if target.wants_anything)
