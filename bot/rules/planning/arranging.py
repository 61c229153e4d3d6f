"""Where the chosen items go: the earliest, least split, driest arrangement, found exactly.

A* search (Hart, Nilsson and Raphael, 1968). A state is the first slot not yet
passed and what is left of each item. A step places the next piece of one item
at the first slot from which it fits: a piece that starts later than it could
only makes the plan later. The bound on what a state still costs lets every
quarter of an hour of every item go to the earliest free slot from the first
in which that item could start, the most valuable item first: the optimum of
unit jobs with weights and release dates.
"""

from __future__ import annotations

from collections.abc import Iterable
from heapq import heappop, heappush
from itertools import count
from typing import Final

from bot.rules.planning.board import MOST_WET, NEVER, Board, Item, Piece, first_from, starts_of
from bot.rules.planning.shortcuts import Trail, betters, should_join, should_swap

Rest = tuple[int, ...]
"""How many slots of each item are still to be placed."""

DEAD: Final = -1
"""The bound of a state from which what is left cannot be placed."""


class Arranging:
    """The search on one board, whose items are in order of value, the highest first.

    It remembers from which slot on something can no longer be placed, so that
    one search spares the next what it has found out.
    """

    def __init__(self, board: Board) -> None:
        self.board = board
        self._items = board.items
        self._firsts: dict[tuple[int, int], tuple[int, ...]] = {}
        # Of each item: its value, where its next piece could start from a slot on, and how dry it can be there.
        self._prospects = [(item.value, self._first(item.allowed, item.shortest), _driest(item, board)) for item in board.items]
        self._betters = betters(board.items)
        # A split outweighs any wetness, and a later quarter of an hour any number of splits.
        self._per_split = 1 + MOST_WET * board.slots
        self._per_lateness = self._per_split * (1 + board.slots)
        self._dead_from: dict[Rest, int] = {}

    def best(self, chosen: Iterable[int]) -> tuple[Piece, ...] | None:
        """The best arrangement of any one of the sets of items (as bits), or None when none can be placed."""
        self._order = count()
        self._waiting: list[tuple[int, int, int, int, int, Rest, Trail | None]] = []
        self._least: dict[tuple[int, Rest], int] = {}
        self._passed: dict[Rest, list[tuple[int, int]]] = {}
        for items in chosen:
            self._reach(0, 0, tuple(item.length if items >> index & 1 else 0 for index, item in enumerate(self._items)), None)
        while self._waiting:
            _, left, _, cost, slot, rest, trail = heappop(self._waiting)
            if not left:
                return _pieces(trail)
            if self._pass(cost, slot, rest):
                self._go_on(cost, slot, rest, trail)
        self._remember()
        return None

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
        bound = self._bound(slot, rest)
        if bound != DEAD:
            heappush(self._waiting, (cost + bound, sum(rest), next(self._order), cost, slot, rest, trail))

    def _remember(self) -> None:
        """After a search that found nothing: no state that it passed leads anywhere."""
        for rest, passed in self._passed.items():
            self._dead_from[rest] = min(self._dead_from.get(rest, self.board.slots), *(slot for slot, _ in passed))

    def _steps(self, slot: int, rest: Rest) -> list[Piece]:
        """The pieces that may come next. One that starts after another could have ended may not: that other would fit before it."""
        pieces: list[Piece] = []
        soonest_end = self.board.slots + 1
        for index, left in enumerate(rest):
            if not left:
                continue
            item = self._items[index]
            start = self._first(item.allowed, left)[slot]
            if start != NEVER:
                soonest_end = min(soonest_end, start + left)
            if any(rest[better] for better in self._betters[index]):
                continue
            # What is left after a piece must be another piece.
            lengths = (left, *range(left - item.shortest, item.shortest - 1, -1))
            starts = ((length, self._first(item.allowed, length)[slot]) for length in lengths)
            pieces += [Piece(index, start, length) for length, start in starts if start != NEVER]
        return [piece for piece in pieces if piece.start < soonest_end]

    def _first(self, allowed: int, length: int) -> tuple[int, ...]:
        """From each slot on, the first one where ``length`` slots of ``allowed`` begin."""
        found = self._firsts.get((allowed, length))
        if found is None:
            found = self._firsts[allowed, length] = first_from(starts_of(allowed, length), self.board.slots)
        return found

    def _cost(self, piece: Piece, left: int) -> int:
        item = self._items[piece.item]
        late = item.value * piece.length * (piece.start + piece.end - 1) // 2
        wet = sum(self.board.wet[piece.start : piece.end]) if item.outdoors else 0
        return late * self._per_lateness + (piece.length < left) * self._per_split + wet

    def _bound(self, slot: int, rest: Rest) -> int:
        """At least what placing ``rest`` from ``slot`` on costs, or DEAD."""
        if slot >= self._dead_from.get(rest, self.board.slots + 1):
            return DEAD
        room = self.board.free
        late = wet = 0
        for left, (value, firsts, driest) in zip(rest, self._prospects, strict=True):
            if not left:
                continue
            start = firsts[slot]
            if start == NEVER:
                return DEAD
            taken, slots_sum = _earliest(room >> start << start, left)
            if not taken:
                return DEAD
            room ^= taken
            late += value * slots_sum
            wet += left * driest[slot] if driest else 0
        return late * self._per_lateness + wet


def _earliest(room: int, wanted: int) -> tuple[int, int]:
    """The ``wanted`` earliest slots of ``room`` and the sum of their numbers; none when there are fewer."""
    taken = total = 0
    while room:
        start = (room & -room).bit_length() - 1
        run = room >> start
        length = min(wanted, (~run & run + 1).bit_length() - 1)
        stretch = (1 << length) - 1 << start
        taken |= stretch
        total += length * (start + start + length - 1) // 2
        wanted -= length
        if not wanted:
            return taken, total
        room ^= stretch
    return 0, 0


def _driest(item: Item, board: Board) -> tuple[int, ...]:
    """From each slot on, how dry the driest slot is in which the outdoor ``item`` may lie; empty for others."""
    if not item.outdoors:
        return ()
    lowest, found = MOST_WET, [0]
    for slot in range(board.slots - 1, -1, -1):
        lowest = min(lowest, board.wet[slot]) if item.allowed >> slot & 1 else lowest
        found.append(lowest)
    return tuple(reversed(found))


def _pieces(trail: Trail | None) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    while trail is not None:
        pieces.append(trail.piece)
        trail = trail.before
    return tuple(reversed(pieces))
