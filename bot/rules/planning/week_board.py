"""The week in quarters of an hour: what the search works on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Pair = tuple[int, int]
"""The index of a goal, or of a target, and the number of a day."""


@dataclass(frozen=True, slots=True)
class Portion:
    """What a goal wants, from day ``first`` to day ``last``, both included, a day nothing or at least ``smallest``.

    ``value`` and ``weight`` are those of ``week_objective``. ``category`` is
    the index of its category's target, None when it has none.
    """

    wants: int
    value: int
    weight: int
    smallest: int
    first: int
    last: int
    category: int | None = None


@dataclass(frozen=True, slots=True)
class Lack:
    """What a target lacks, and how much more its category may have: None for any amount."""

    lacks: int
    may_have: int | None = None


@dataclass(frozen=True, slots=True)
class WeekBoard:
    """The room of each day, what the goals want, and what the targets lack."""

    rooms: tuple[int, ...]
    portions: tuple[Portion, ...]
    lacks: tuple[Lack, ...]


@dataclass(frozen=True, slots=True)
class Shares:
    """The quarters of each goal, and of each target for itself, on the days where there are any. ``proven`` if none are better."""

    goals: Mapping[Pair, int]
    targets: Mapping[Pair, int]
    proven: bool = True

    def of_goal(self, index: int) -> int:
        """All that a goal has in the week."""
        return sum(quarters for (goal, _), quarters in self.goals.items() if goal == index)

    def of_category(self, board: WeekBoard, index: int) -> int:
        """All that the category of a target has in the week: its goals, and the target itself."""
        of_goals = sum(quarters for (goal, _), quarters in self.goals.items() if board.portions[goal].category == index)
        return of_goals + sum(quarters for (target, _), quarters in self.targets.items() if target == index)
