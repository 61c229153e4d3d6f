"""The best plan of a board."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bot.rules.planning.arranging import MOST_STATES, Arranging
from bot.rules.planning.board import Board, Piece, starts_of
from bot.rules.planning.choosing import choices


@dataclass(frozen=True, slots=True)
class Solution:
    """Pieces in order of time; ``proven`` unless the search for something better was given up: see ``arranging``."""

    pieces: tuple[Piece, ...]
    proven: bool = True


def solve(board: Board, most_states: int = MOST_STATES) -> Solution:
    """The plan that is best by ``objective.Objective.rank``: exact, unless it took more than ``most_states``; then a good one.

    The choices are tried from the worthiest down; the first that can be
    arranged is the best, and of equally worthy ones all are arranged together.
    """
    if len(board.items) <= 1 and all(item.whole for item in board.items):
        return Solution(tuple(_at_its_earliest(board)))
    order = sorted(range(len(board.items)), key=lambda index: -board.items[index].value)
    arranging = Arranging(replace(board, items=tuple(board.items[index] for index in order)), most_states)
    pieces = _best(arranging)
    return Solution(tuple(Piece(order[piece.item], piece.start, piece.length) for piece in pieces), arranging.proven)


def _at_its_earliest(board: Board) -> Iterator[Piece]:
    """What is alone and in one piece: no place is better than the earliest."""
    for index, item in enumerate(board.items):
        starts = starts_of(item.allowed, item.length)
        if starts and item.length <= board.capacity:
            yield Piece(index, (starts & -starts).bit_length() - 1, item.length)


def _best(arranging: Arranging) -> tuple[Piece, ...]:
    # What fits in one piece is possible without a search.
    possible = [1 << index for index in range(len(arranging.board.items)) if arranging.fits_whole(index) or arranging.best([1 << index])]
    found = (arranging.best(equal) for equal in choices(arranging.board, sum(possible)))
    best = next((pieces for pieces in found if pieces is not None or not arranging.proven), None)
    return _one_after_the_other(arranging, possible) if best is None else best


def _one_after_the_other(arranging: Arranging, possible: list[int]) -> tuple[Piece, ...]:
    """A plan to which each thing was added that still found a place, routines first, then the most valuable."""
    items = arranging.board.items
    pieces: tuple[Piece, ...] = ()
    chosen, room = 0, arranging.board.capacity
    for item in sorted(possible, key=lambda each: not items[each.bit_length() - 1].routine):
        length = items[item.bit_length() - 1].length
        found = arranging.best([chosen | item]) if length <= room else None
        if found is not None:
            chosen, pieces, room = chosen | item, found, room - length
    return pieces
