"""The pieces that may come next in a plan."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from bot.rules.planning.board import NEVER, Item, Piece, starts_of
from bot.rules.planning.bounding import Rest
from bot.rules.planning.shortcuts import kinds


class Steps:
    """The steps of a search among ``items``, which are in order of value, the highest first.

    A step places a piece at the first slot from which it fits. One that starts
    after another could have finished its item may not be next: that other
    would fit before it.
    """

    def __init__(self, items: Sequence[Item]) -> None:
        self._items = items
        self._kinds = kinds(items)
        self._may_be_split = [(index, item.shortest) for index, item in enumerate(items) if not item.whole]
        # Items that may lie in the same slots share what is found out about these.
        starts: dict[int, dict[int, int]] = {item.allowed: {} for item in items}
        self._starts = [starts[item.allowed] for item in items]

    def fits_whole(self, index: int) -> bool:
        """Whether the item alone has a place somewhere in one piece."""
        return self._first(index, self._items[index].length, 0) != NEVER

    def finishing(self, slot: int, rest: Rest) -> list[Piece]:
        """The pieces from ``slot`` on that are all that is left of an item."""
        pieces = self._ends(slot, rest)
        return _in_time(pieces, pieces)

    def splitting(self, slot: int, rest: Rest) -> list[Piece]:
        """The pieces from ``slot`` on that leave some of an item, which must be another piece."""
        pieces = [
            Piece(index, self._first(index, length, slot), length)
            for index, shortest, left in self._splittable(rest)
            for length in range(shortest, left - shortest + 1)
        ]
        return _in_time(pieces, self._ends(slot, rest))

    def longest_splitting(self, rest: Rest) -> int:
        """How long a piece that leaves some of an item may be; 0 when there can be none."""
        return max([left - shortest for _, shortest, left in self._splittable(rest)], default=0)

    def _ends(self, slot: int, rest: Rest) -> list[Piece]:
        """The first place of all that is left of each item, of those of a kind only the first."""
        first: dict[int, int] = {}
        for index, left in enumerate(rest):
            if left:
                first.setdefault(self._kinds[index], index)
        return [Piece(index, self._first(index, rest[index], slot), rest[index]) for index in first.values()]

    def _splittable(self, rest: Rest) -> list[tuple[int, int, int]]:
        """The items of which two pieces or more are left: the index, the shortest piece, and what is left."""
        return [(index, shortest, rest[index]) for index, shortest in self._may_be_split if rest[index] >= 2 * shortest]

    def _first(self, index: int, length: int, slot: int) -> int:
        """From ``slot`` on, the first one where ``length`` slots that the item may have begin, or NEVER."""
        starts = self._starts[index]
        found = starts.get(length)
        if found is None:
            found = starts[length] = starts_of(self._items[index].allowed, length)
        later = found >> slot
        return slot + (later & -later).bit_length() - 1 if later else NEVER


def _in_time(pieces: Iterable[Piece], ends: Iterable[Piece]) -> list[Piece]:
    soonest_end = min(NEVER, *[piece.end for piece in ends])
    return [piece for piece in pieces if piece.start < soonest_end]
