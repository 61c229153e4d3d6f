"""Goals of a week or a month."""

from __future__ import annotations

from datetime import date

from sqlalchemy import bindparam

from storage.forms import GOALS
from storage.records import Goal, GoalState, Horizon
from storage.schema import goals
from storage.shelf import Shelf

_OF_HORIZON = goals.c.horizon == bindparam("horizon")
_OF_PERIOD = goals.c.period == bindparam("period")
_IN_STATE = goals.c.state == bindparam("state")
_FOR_PERIOD = GOALS.mine(_OF_HORIZON, _OF_PERIOD)
_IN_STATE_FOR = GOALS.mine(_OF_HORIZON, _OF_PERIOD, _IN_STATE)
_IN_STATE_BEFORE = GOALS.mine(_OF_HORIZON, goals.c.period < bindparam("period"), _IN_STATE, order=(goals.c.period,))


class Goals(Shelf[Goal]):
    """The person's goals, in the order they were made. ``period`` is the first local day of the week or month."""

    def for_period(self, horizon: Horizon, period: date) -> tuple[Goal, ...]:
        """All goals wanted for that week or month."""
        return self.many(_FOR_PERIOD, horizon=horizon, period=period)

    def open_for(self, horizon: Horizon, period: date) -> tuple[Goal, ...]:
        """Those of them that are open."""
        return self.many(_IN_STATE_FOR, horizon=horizon, period=period, state=GoalState.OPEN)

    def open_before(self, horizon: Horizon, period: date) -> tuple[Goal, ...]:
        """Open goals of earlier weeks or months, oldest period first."""
        return self.many(_IN_STATE_BEFORE, horizon=horizon, period=period, state=GoalState.OPEN)
