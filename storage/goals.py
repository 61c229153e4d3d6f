"""Goals of a week or a month."""

from __future__ import annotations

from datetime import date

from sqlalchemy import bindparam, literal_column

from storage.forms import GOALS
from storage.records import Goal, Horizon
from storage.schema import goals
from storage.shelf import Shelf

_OF_HORIZON = goals.c.horizon == bindparam("horizon")
_OF_PERIOD = goals.c.period == bindparam("period")
_FOR_PERIOD = GOALS.mine(_OF_HORIZON, _OF_PERIOD)
# A literal, because SQLite takes a partial index for a literal only.
_OPEN = GOALS.mine(goals.c.state == literal_column("'open'"), order=(goals.c.period,))


class Goals(Shelf[Goal]):
    """The person's goals, in the order they were made. ``period`` is the first local day of the week or month."""

    def for_period(self, horizon: Horizon, period: date) -> tuple[Goal, ...]:
        """All goals wanted for that week or month."""
        return self.many(_FOR_PERIOD, horizon=horizon, period=period)

    def open_for(self, horizon: Horizon, period: date) -> tuple[Goal, ...]:
        """Those of them that are open."""
        return tuple(goal for goal in self.open() if (goal.horizon, goal.period) == (horizon, period))

    def open_before(self, horizon: Horizon, period: date) -> tuple[Goal, ...]:
        """Open goals of earlier weeks or months, oldest period first."""
        return tuple(goal for goal in self.open() if goal.horizon is horizon and goal.period < period)

    def open(self) -> tuple[Goal, ...]:
        """All open goals, oldest period first. They are few, as what is not met is carried or dropped."""
        return self.many(_OPEN)
