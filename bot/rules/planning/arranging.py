"""Where the chosen items go: the earliest, least split, driest arrangement, found exactly.

A* search (Hart, Nilsson and Raphael, 1968). A state is the first slot not yet
passed and what is left of each item. A step places the next piece of one item
at the first slot from which it fits: a piece that starts later than it could
only makes the plan later. What a state still costs is bounded as ``bounding`` says.

A day has some hundreds of states, one with twenty tasks a few thousand. Many
outdoor tasks beside scattered rain may make millions of it; nobody waits for
those, so after ``most_states`` the search goes for what it can finish soonest,
and what it then finds is good but not proven best.
"""

from __future__ import annotations

from collections.abc import Iterable
from heapq import heapify, heappop, heappush
from itertools import count
from typing import Final

from bot.rules.planning.board import MOST_WET, NEVER, Board, Piece, first_from, starts_of
from bot.rules.planning.bounding import DEAD, Bounding, Rest
from bot.rules.planning.shortcuts import Trail, betters, should_join, should_swap

MOST_STATES: Final = 4000
"""About a third of a second. A thousand random days had no more than a few hundred each. Common practice, no source."""

HURRIED_STATES: Final = 200
"""States that a search in a hurry may still look at: some times as many as a day has things to place."""


class Arranging:
    """The search on one board, whose items are in order of value, the highest first.

    It remembers from which slot on something can no longer be placed, so that
    one search spares the next what it has found out. ``proven`` until it was
    in a hurry; ``most_states`` is for all its searches together.
    """

    def __init__(self, board: Board, most_states: int = MOST_STATES) -> None:
        self.board = board
        self.proven = True
        self._states_left = most_states
        self._items = board.items
        # Items that may lie in the same slots share what is found out about these.
        firsts: dict[int, dict[int, tuple[int, ...]]] = {item.allowed: {} for item in board.items}
        self._firsts = [firsts[item.allowed] for item in board.items]
        self._betters = betters(board.items)
        # A split outweighs any wetness, and a later quarter of an hour any number of splits.
        self._per_split = 1 + MOST_WET * board.slots
        self._per_lateness = self._per_split * (1 + board.slots)
        self._dead_from: dict[Rest, int] = {}
        self._bounding = Bounding(board, [self._first(index, item.shortest) for index, item in enumerate(board.items)], self._per_lateness)

    def best(self, chosen: Iterable[int]) -> tuple[Piece, ...] | None:
        """The best arrangement of any one of the sets of items (as bits), or None when none can be placed.

        Once no longer ``proven``: a good arrangement, or None when none was found in a hurry.
        """
        self._order = count()
        self._waiting: list[tuple[int, int, int, int, int, Rest, Trail | None]] = []
        self._hurried = False
        self._least: dict[tuple[int, Rest], int] = {}
        self._passed: dict[Rest, list[tuple[int, int]]] = {}
        for items in chosen:
            self._reach(0, 0, tuple(item.length if items >> index & 1 else 0 for index, item in enumerate(self._items)), None)
        self.proven = self.proven and self._states_left > 0
        while self._waiting and self._may_go_on():
            _, _, _, cost, slot, rest, trail = heappop(self._waiting)
            if not any(rest):
                return _pieces(trail)
            if self._pass(cost, slot, rest):
                self._go_on(cost, slot, rest, trail)
        if not self._waiting:
            self._remember()
        return None

    def fits_whole(self, index: int) -> bool:
        """Whether the item alone has a place somewhere in one piece."""
        return self._first(index, self._items[index].length)[0] != NEVER

    def _may_go_on(self) -> bool:
        """Whether there are states left to look at. When there are none, it hurries for some more: what has the least left comes first."""
        if self._states_left > 0:
            return True
        if self._hurried:
            return False
        self.proven, self._hurried, self._states_left = False, True, HURRIED_STATES
        self._waiting = [(left, least, *more) for least, left, *more in self._waiting]  # type: ignore[misc]
        heapify(self._waiting)
        return True

    def _pass(self, cost: int, slot: int, rest: Rest) -> bool:
        """Notes the state, and says whether it is worth going on from: not when one as early and as cheap was passed."""
        passed = self._passed.setdefault(rest, [])
        if any(earlier <= slot and cheaper <= cost for earlier, cheaper in passed):
            return False
        passed.append((slot, cost))
        return True

    def _go_on(self, cost: int, slot: int, rest: Rest, trail: Trail | None) -> None:
        for piece in self._steps(slot, rest):
            if trail is not None and should_swap(self._items, trail.piece, piece):
                continue
            index, left = piece.item, rest[piece.item]
            if trail is not None and left < self._items[index].length and should_join(self._items, trail, piece):
                continue
            after = (*rest[:index], left - piece.length, *rest[index + 1 :])
            self._reach(cost + self._cost(piece, left), piece.end, after, Trail(trail, piece))

    def _reach(self, cost: int, slot: int, rest: Rest, trail: Trail | None) -> None:
        """Puts a state among those waiting, unless it was reached as cheaply before or leads nowhere."""
        if self._least.get((slot, rest), cost + 1) <= cost:
            return
        self._least[slot, rest] = cost
        self._states_left -= 1
        if slot >= self._dead_from.get(rest, self.board.slots + 1):
            return
        bound = self._bounding.least(slot, rest)
        if bound != DEAD:
            least, left = cost + bound, sum(rest)
            first, second = (left, least) if self._hurried else (least, left)
            heappush(self._waiting, (first, second, next(self._order), cost, slot, rest, trail))

    def _remember(self) -> None:
        """After a search that found nothing: no state that it passed leads anywhere."""
        for rest, passed in self._passed.items():
            self._dead_from[rest] = min(self._dead_from.get(rest, self.board.slots), *(slot for slot, _ in passed))

    def _steps(self, slot: int, rest: Rest) -> list[Piece]:
        """The pieces that may come next. One that starts after another could have ended may not: that other would fit before it."""
        placed = [index for index, left in enumerate(rest) if left]
        starts = [(self._first(index, rest[index])[slot], rest[index]) for index in placed]
        soonest_end = min((start + left for start, left in starts if start != NEVER), default=self.board.slots + 1)
        pieces: list[Piece] = []
        for index in placed:
            if any(rest[better] for better in self._betters[index]):
                continue
            left, shortest = rest[index], self._items[index].shortest
            # What is left after a piece must be another piece.
            for length in (left, *range(left - shortest, shortest - 1, -1)):
                start = self._first(index, length)[slot]
                if NEVER < start < soonest_end:
                    pieces.append(Piece(index, start, length))
        return pieces

    def _first(self, index: int, length: int) -> tuple[int, ...]:
        """From each slot on, the first one where ``length`` slots that the item may have begin."""
        firsts = self._firsts[index]
        found = firsts.get(length)
        if found is None:
            found = firsts[length] = first_from(starts_of(self._items[index].allowed, length), self.board.slots)
        return found

    def _cost(self, piece: Piece, left: int) -> int:
        item = self._items[piece.item]
        late = item.value * piece.length * (piece.start + piece.end - 1) // 2
        wet = sum(self.board.wet[piece.start : piece.end]) if item.outdoors else 0
        return late * self._per_lateness + (piece.length < left) * self._per_split + wet


def _pieces(trail: Trail | None) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    while trail is not None:
        pieces.append(trail.piece)
        trail = trail.before
    return tuple(reversed(pieces))
