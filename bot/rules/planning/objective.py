"""What makes one plan of a day better than another: five levels, each of which counts only where those before it are equal.

1. ``routines``: how many routines are placed, each whole and within its
   window. More is better.
2. ``value``: the sum of the values of the tasks that are placed, each whole.
   More is better.
3. ``lateness``: over every slot that a routine or a task fills, its value
   times the slot's number, slot 0 being the first full quarter of an hour of
   the waking window. Less is better: the day is filled from its start on, and
   what is more valuable comes first.
4. ``splits``: how many pieces there are beyond one for each thing placed; two
   pieces that touch are one. Fewer is better.
5. ``wetness``: over every slot that an outdoor thing fills, the chance of rain
   in it in percent. Less is better.

A plan is possible if every piece lies in free slots of its own, in those
that its window and, outdoors, dry weather leave; if no piece is shorter than
its smallest, and what may not be split is in one; and if no more slots are
filled than may be. All five are whole numbers, so that another solver can
compute the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.rules.planning.board import Board, Piece


@dataclass(frozen=True, slots=True)
class Objective:
    """The five levels of one plan."""

    routines: int
    value: int
    lateness: int
    splits: int
    wetness: int

    @property
    def rank(self) -> tuple[int, int, int, int, int]:
        """What compares two plans: the higher, the better."""
        return self.routines, self.value, -self.lateness, -self.splits, -self.wetness


def measured(board: Board, pieces: Sequence[Piece]) -> Objective:
    """The objective of ``pieces``, none of which may touch another of the same item."""
    items = board.items
    placed = {piece.item for piece in pieces}
    return Objective(
        routines=sum(items[index].routine for index in placed),
        value=sum(items[index].value for index in placed if not items[index].routine),
        lateness=sum(items[piece.item].value * sum(range(piece.start, piece.end)) for piece in pieces),
        splits=len(pieces) - len(placed),
        wetness=sum(sum(board.wet[piece.start : piece.end]) for piece in pieces if items[piece.item].outdoors),
    )
