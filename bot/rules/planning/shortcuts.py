"""Steps of the search that need not be taken, because a plan that takes them can be made better.

Each of these says so of a plan in which one piece follows others: it could be
changed into a possible plan that fills the same day with the same things and
is earlier, or as early and less split. So the best plan is never lost.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from bot.rules.planning.board import Item, Piece, lies_in


class Trail(NamedTuple):
    """The pieces placed so far, the last first."""

    before: Trail | None
    piece: Piece


def should_swap(items: Sequence[Item], last: Piece, piece: Piece) -> bool:
    """Whether ``piece`` touches the ``last`` one, is worth more and could change places with it."""
    one, other = items[last.item], items[piece.item]
    if piece.start != last.end or other.value <= one.value:
        return False
    return lies_in(other.allowed, last.start, piece.length) and lies_in(one.allowed, last.start + piece.length, last.length)


def should_join(items: Sequence[Item], trail: Trail, piece: Piece) -> bool:
    """Whether ``piece`` could be joined to the piece of the same item before it, past all that lies between.

    Either what lies between goes first, or it goes last: the one of the two
    that is no later is looked at, and it saves a split.
    """
    item = items[piece.item]
    between = _back_to(trail, piece)
    if not between:
        return False
    *passed, earlier = between
    if not lies_in(item.allowed, earlier.start, piece.end - earlier.start):
        return False
    worth = sum(items[each.item].value * each.length for each in passed)
    shift = -earlier.length if item.value * (piece.start - earlier.end) <= worth else piece.length
    return all(lies_in(items[each.item].allowed, each.start + shift, each.length) for each in passed)


def _back_to(trail: Trail, piece: Piece) -> list[Piece]:
    """The pieces from the one before ``piece`` back to the last of the same item; empty if a slot between them is not filled."""
    found: list[Piece] = []
    start = piece.start
    step: Trail | None = trail
    while step is not None and step.piece.end == start:
        found.append(step.piece)
        if step.piece.item == piece.item:
            return found
        start, step = step.piece.start, step.before
    return []


def kinds(items: Sequence[Item]) -> tuple[int, ...]:
    """For each item the first of its kind: as long, in the same slots, in one piece. As items are in order of value, that is worth no less.

    So it comes before the others wherever they are placed: they could change places.
    """
    first: dict[tuple[int, int, bool], int] = {}
    return tuple(
        first.setdefault((item.length, item.allowed, item.outdoors), index) if item.whole else index for index, item in enumerate(items)
    )
