"""The best plan of a board."""

from __future__ import annotations

from dataclasses import replace

from bot.rules.planning.arranging import Arranging
from bot.rules.planning.board import Board, Piece
from bot.rules.planning.choosing import choices


def solve(board: Board) -> tuple[Piece, ...]:
    """The pieces of the plan that is best by ``objective.Objective.rank``, in order of time; exact.

    The choices are tried from the worthiest down; the first that can be
    arranged is the best, and of equally worthy ones all are arranged together.
    """
    order = sorted(range(len(board.items)), key=lambda index: -board.items[index].value)
    arranging = Arranging(replace(board, items=tuple(board.items[index] for index in order)))
    return tuple(piece._replace(item=order[piece.item]) for piece in _best(arranging))


def _best(arranging: Arranging) -> tuple[Piece, ...]:
    alone = [1 << index for index in range(len(arranging.board.items))]
    possible = sum(item for item in alone if arranging.best([item]) is not None)
    found = (arranging.best(equal) for equal in choices(arranging.board, possible))
    # The last choice is to place nothing, which is always possible.
    return next(pieces for pieces in found if pieces is not None)
