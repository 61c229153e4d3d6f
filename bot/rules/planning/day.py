"""The plan of one day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from bot.rules.planning.asked import STEP_MINUTES, Block, OpenDay, Wanted
from bot.rules.planning.laying_out import grid_of, laid_out
from bot.rules.planning.objective import Objective, measured
from bot.rules.planning.remedies import Remedy, placed, remedies
from bot.rules.planning.solving import solve


@dataclass(frozen=True, slots=True)
class Unplaced:
    """What found no place, and each single change that would give it one."""

    key: str
    remedies: tuple[Remedy, ...]


@dataclass(frozen=True, slots=True)
class DayPlan:
    """A day's blocks in order of time, those kept among them, and what found no place.

    ``minutes_left`` could still be filled. ``objective`` measures the blocks
    that were not kept. ``proven`` unless so much was wanted that the search
    for something better was given up: see ``arranging``.
    """

    blocks: tuple[Block, ...]
    unplaced: tuple[Unplaced, ...]
    objective: Objective
    minutes_left: int
    proven: bool = True


def plan_day(day: OpenDay) -> DayPlan:
    """The best plan of ``day`` by the objective of ``objective``, exactly unless it says otherwise; the same for the same day.

    A few milliseconds for a usual day.
    """
    grid = grid_of(day.window)
    board = laid_out(day, grid)
    solution = solve(board)
    pieces = solution.pieces
    blocks = tuple(Block(day.wanted[piece.item].key, grid.span(piece.start, piece.length)) for piece in pieces)
    in_plan = {block.key for block in blocks}
    return DayPlan(
        blocks=tuple(sorted((*blocks, *day.kept), key=lambda block: block.span.starts)),
        unplaced=tuple(Unplaced(wanted.key, remedies(day, blocks, wanted)) for wanted in day.wanted if wanted.key not in in_plan),
        objective=measured(board, pieces),
        proven=solution.proven,
        minutes_left=(board.capacity - sum(piece.length for piece in pieces)) * STEP_MINUTES,
    )


def first_day_with_room(wanted: Wanted, days: Iterable[tuple[date, OpenDay]]) -> date | None:
    """The first of ``days`` whose own plan leaves room for ``wanted``, at any time of that day; None if none does."""
    anytime = replace(wanted, window=None)
    for day, asked in days:
        if placed(replace(asked, kept=plan_day(asked).blocks), anytime):
            return day
    return None
