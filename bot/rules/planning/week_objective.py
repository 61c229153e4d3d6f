"""What makes one plan of a week better than another: three levels, each of which counts only where those before it are equal.

A quarter is a quarter of an hour. What is wanted is rounded up to quarters,
what is at most allowed is rounded down.

1. ``target_short``: the quarters that all targets together lack of their "at
   least", after what is settled. Less is better.
2. ``goal_short``: over all goals, the value times the quarters not planned.
   Less is better.
3. ``lateness``: over all shares, the weight times the quarters times the
   number of the day, the first being 0. Less is better. With n goals, the one
   at index i weighs value * (n + 1) + n - i: the more valuable goal comes
   first, and of equally valuable ones the one named first. A target weighs 1.

A plan is possible if no day holds more than its room, no goal has more than
it wants or a share before its first day or after its last, no share is
smaller than the smallest, a goal that must be done on one day is whole, and
no category with an "at most" goes beyond it, or has anything if what is
settled does already. Time for a target itself may be planned in any
quarters, up to what it lacks at the beginning.
"""

from __future__ import annotations

from dataclasses import dataclass

from bot.rules.planning.week_board import Shares, WeekBoard


@dataclass(frozen=True, slots=True)
class WeekObjective:
    """The three levels of one plan; the lower ``rank``, the better."""

    target_short: int
    goal_short: int
    lateness: int

    @property
    def rank(self) -> tuple[int, int, int]:
        """What compares two plans."""
        return self.target_short, self.goal_short, self.lateness


def measured_week(board: WeekBoard, shares: Shares) -> WeekObjective:
    """The objective of ``shares``."""
    lacking = (lack.lacks - shares.of_category(board, index) for index, lack in enumerate(board.lacks))
    missing = (portion.value * (portion.wants - shares.of_goal(index)) for index, portion in enumerate(board.portions))
    late_goals = sum(board.portions[goal].weight * day * quarters for (goal, day), quarters in shares.goals.items())
    late_targets = sum(day * quarters for (_, day), quarters in shares.targets.items())
    return WeekObjective(sum(max(0, each) for each in lacking), sum(missing), late_goals + late_targets)
