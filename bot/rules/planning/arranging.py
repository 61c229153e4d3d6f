"""Where the chosen items go: the earliest, least split, driest arrangement, found exactly.

A* search (Hart, Nilsson and Raphael, 1968). A state is the first slot not yet
passed and what is left of each item. A step places the next piece of one item
at the first slot from which it fits: a piece that starts later than it could
only makes the plan later. What a state still costs is bounded as ``bounding`` says.

Most steps are never taken, so they are looked at only when their time comes
(partial expansion: Yoshizumi, Miura and Ishida, 2000). Until then one counts as
costing what the state costs that it starts from, and one that splits an item
as a split more: no plan that takes it costs less, so that the first plan whose
time comes is the best. States come in the order in which they would if all
steps were looked at at once, and so it is the same one of equally good plans.

A day has some hundreds of states, one with twenty tasks a few thousand. Many
outdoor tasks beside scattered rain may make millions of it; nobody waits for
those, so after ``most_states`` the search goes for what it can finish soonest,
and what it then finds is good but not proven best.
"""

from __future__ import annotations

from collections.abc import Iterable
from heapq import heapify, heappop, heappush
from itertools import count
from typing import Final, NamedTuple

from bot.rules.planning.board import MOST_WET, Board, Piece
from bot.rules.planning.bounding import DEAD, Bounding, Rest
from bot.rules.planning.shortcuts import Trail, should_join, should_swap
from bot.rules.planning.steps import Steps

MOST_STATES: Final = 4000
"""About a third of a second. A thousand random days had no more than a few hundred each. Common practice, no source."""

HURRIED_STATES: Final = 200
"""States that a search in a hurry may still look at: some times as many as a day has things to place."""

SPLITS: Final = -1


class State(NamedTuple):
    """What a plan costs at least, and so far; the first slot not yet passed; what is left of each item; and the pieces placed."""

    least: int
    cost: int
    slot: int
    rest: Rest
    trail: Trail | None


Waiting = tuple[int, int, int, int, State, Piece | None]
"""What waits, the most promising first: what a plan costs at least, how much is left then, and, where these are equal, the number of
the state from which the step was taken, and the step's item. Then the state that was reached, or the one to start from with a piece;
with SPLITS for an item, with any piece that splits one."""


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
        self._steps = Steps(board.items)
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
        self._waiting: list[Waiting] = []
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
        return self._steps.fits_whole(index)

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
        """Puts the steps from a state among those waiting; one that splits an item only once its time has come."""
        number = next(self._numbers)
        self._wait_for(number, state, state.least, self._steps.finishing(state.slot, state.rest))
        longest = self._steps.longest_splitting(state.rest)
        if longest:
            self._wait(self._with_a_split(state), sum(state.rest) - longest, number, SPLITS, state, None)

    def _split(self, number: int, state: State) -> None:
        self._wait_for(number, state, self._with_a_split(state), self._steps.splitting(state.slot, state.rest))

    def _wait_for(self, number: int, state: State, least: int, pieces: Iterable[Piece]) -> None:
        left = sum(state.rest)
        for piece in pieces:
            self._wait(least, left - piece.length, number, piece.item, state, piece)

    def _with_a_split(self, state: State) -> int:
        """What a plan costs at least that goes on from there and splits: as late, with one split more than are known of, and dry."""
        return (state.least // self._per_split + 1) * self._per_split

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
