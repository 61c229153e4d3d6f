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

from collections.abc import Iterable, Iterator
from heapq import heapify, heappop, heappush
from itertools import count
from typing import Final, NamedTuple

from bot.rules.planning.board import MOST_WET, NEVER, Board, Piece, starts_of
from bot.rules.planning.bounding import DEAD, Bounding, Rest
from bot.rules.planning.shortcuts import Trail, kinds, should_join, should_swap

MOST_STATES: Final = 4000
"""About a third of a second. A thousand random days had no more than a few hundred each. Common practice, no source."""

SPLITS: Final = -1
"""In place of an item: all pieces that split one."""

HURRIED_STATES: Final = 200
"""States that a search in a hurry may still look at: some times as many as a day has things to place."""


class State(NamedTuple):
    """What a plan costs at least, and so far; the first slot not yet passed; what is left of each item; and the pieces placed."""

    least: int
    cost: int
    slot: int
    rest: Rest
    trail: Trail | None


Turn = tuple[int, int, int, int, State, Piece | None]
"""What waits, the most promising first: what it costs at least, what it leaves, and, of equals, which was found first: the number
of the state it comes from, and the item of the piece. Then the state, and the piece that is to be placed next, if it is."""


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
        starts: dict[int, dict[int, int]] = {item.allowed: {} for item in board.items}
        self._starts = [starts[item.allowed] for item in board.items]
        self._may_be_split = [(index, item.shortest) for index, item in enumerate(board.items) if not item.whole]
        self._kinds = kinds(board.items)
        # A split outweighs any wetness, and a later quarter of an hour any number of splits.
        self._per_split = 1 + MOST_WET * board.slots
        self._per_lateness = self._per_split * (1 + board.slots)
        self._dead_from: dict[Rest, int] = {}
        self._bounding = Bounding(board, self._per_lateness)

    def best(self, chosen: Iterable[int]) -> tuple[Piece, ...] | None:
        """The best arrangement of any one of the sets of items (as bits), or None when none can be placed.

        Once no longer ``proven``: a good arrangement, or None when none was found in a hurry.
        """
        self._numbers = count(1)
        self._waiting: list[Turn] = []
        self._hurried = False
        self._least: dict[tuple[int, Rest], tuple[int, int, int]] = {}
        self._passed: dict[Rest, list[tuple[int, int]]] = {}
        self.proven = self.proven and self._states_left > 0
        for number, items in enumerate(chosen):
            rest = tuple([item.length if items >> index & 1 else 0 for index, item in enumerate(self._items)])
            self._reach(0, number, 0, 0, rest, None)
        while self._waiting and self._may_go_on():
            _, _, number, index, state, piece = heappop(self._waiting)
            if piece is not None:
                self._place(number, state, piece)
            elif index == SPLITS:
                self._split(number, state)
            elif not any(state.rest):
                return _pieces(state.trail)
            elif self._pass(state):
                self._go_on(state)
        if not self._waiting:
            self._remember()
        return None

    def fits_whole(self, index: int) -> bool:
        """Whether the item alone has a place somewhere in one piece."""
        return self._first(index, self._items[index].length, 0) != NEVER

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

    def _wait(self, least: int, left: int, number: int, index: int, state: State, piece: Piece | None) -> None:
        first, second = (left, least) if self._hurried else (least, left)
        heappush(self._waiting, (first, second, number, index, state, piece))

    def _pass(self, state: State) -> bool:
        """Notes the state, and says whether it is worth going on from: not when one as early and as cheap was passed."""
        passed = self._passed.setdefault(state.rest, [])
        if any(earlier <= state.slot and cheaper <= state.cost for earlier, cheaper in passed):
            return False
        passed.append((state.slot, state.cost))
        return True

    def _go_on(self, state: State) -> None:
        number = next(self._numbers)
        finishing = self._finishing(state)
        self._wait_for(number, state, state.least, finishing, _soonest_end(finishing))
        longest = max([left - shortest for _, shortest, left in self._splittable(state)], default=0)
        if longest:
            self._wait(self._next_level(state), sum(state.rest) - longest, number, SPLITS, state, None)

    def _split(self, number: int, state: State) -> None:
        self._wait_for(number, state, self._next_level(state), self._splitting(state), _soonest_end(self._finishing(state)))

    def _wait_for(self, number: int, state: State, least: int, pieces: Iterable[Piece], soonest_end: int) -> None:
        left = sum(state.rest)
        for piece in pieces:
            # One that starts after another could have ended may not come next: that other would fit before it.
            if piece.start < soonest_end:
                self._wait(least, left - piece.length, number, piece.item, state, piece)

    def _next_level(self, state: State) -> int:
        """The least that a plan costs which goes on from there with a split."""
        return (state.least // self._per_split + 1) * self._per_split

    def _finishing(self, state: State) -> list[Piece]:
        """For each item, the next place for all that is left of it."""
        alike: dict[int, int] = {}
        for index, left in enumerate(state.rest):
            if left:
                alike.setdefault(self._kinds[index], index)
        return [Piece(index, self._first(index, state.rest[index], state.slot), state.rest[index]) for index in alike.values()]

    def _splitting(self, state: State) -> Iterator[Piece]:
        """The next places for pieces that leave some of an item, which must be another piece."""
        for index, shortest, left in self._splittable(state):
            for length in range(shortest, left - shortest + 1):
                yield Piece(index, self._first(index, length, state.slot), length)

    def _splittable(self, state: State) -> list[tuple[int, int, int]]:
        """The items of which two pieces are left or more: the index, the shortest piece, and what is left."""
        return [(index, shortest, state.rest[index]) for index, shortest in self._may_be_split if state.rest[index] >= 2 * shortest]

    def _place(self, number: int, state: State, piece: Piece) -> None:
        """Goes to the state after the piece, unless a plan that does can be made better."""
        _, cost, _, rest, trail = state
        index, left = piece.item, rest[piece.item]
        if trail is not None and should_swap(self._items, trail.piece, piece):
            return
        if trail is not None and left < self._items[index].length and should_join(self._items, trail, piece):
            return
        after = (*rest[:index], left - piece.length, *rest[index + 1 :])
        self._reach(number, index, cost + self._cost(piece, left), piece.end, after, Trail(trail, piece))

    def _reach(self, number: int, index: int, cost: int, slot: int, rest: Rest, trail: Trail | None) -> None:
        """Puts a state among those waiting, unless it was reached as cheaply before or leads nowhere."""
        way = (cost, number, index)
        if self._least.get((slot, rest), way) < way:
            return
        self._least[slot, rest] = way
        self._states_left -= 1
        if slot >= self._dead_from.get(rest, self.board.slots + 1):
            return
        bound = self._bounding.least(slot, rest)
        if bound != DEAD:
            self._wait(cost + bound, sum(rest), number, index, State(cost + bound, cost, slot, rest, trail), None)

    def _remember(self) -> None:
        """After a search that found nothing: no state that it passed leads anywhere."""
        for rest, passed in self._passed.items():
            self._dead_from[rest] = min(self._dead_from.get(rest, self.board.slots), *(slot for slot, _ in passed))

    def _first(self, index: int, length: int, slot: int) -> int:
        """From the slot on, the first one where ``length`` slots that the item may have begin, or NEVER."""
        starts = self._starts[index]
        found = starts.get(length)
        if found is None:
            found = starts[length] = starts_of(self._items[index].allowed, length)
        later = found >> slot
        return slot + (later & -later).bit_length() - 1 if later else NEVER

    def _cost(self, piece: Piece, left: int) -> int:
        item = self._items[piece.item]
        late = item.value * piece.length * (piece.start + piece.end - 1) // 2
        wet = sum(self.board.wet[piece.start : piece.end]) if item.outdoors else 0
        return late * self._per_lateness + (piece.length < left) * self._per_split + wet


def _soonest_end(pieces: Iterable[Piece]) -> int:
    return min(NEVER, *[piece.end for piece in pieces])


def _pieces(trail: Trail | None) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    while trail is not None:
        pieces.append(trail.piece)
        trail = trail.before
    return tuple(reversed(pieces))
