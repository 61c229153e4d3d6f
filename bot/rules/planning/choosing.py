"""Which items to place: every choice worth trying, the worthiest first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import groupby

from bot.rules.planning.board import Board, Item, starts_of


@dataclass(frozen=True, slots=True)
class Choice:
    """A set of items, as bits, and what it is worth: one routine more than all tasks together."""

    worth: int
    items: int


def choices(board: Board, possible: int) -> Iterator[tuple[int, ...]]:
    """Sets of items, as bits, those of equal worth together, the worthiest first; the last is the empty one.

    ``possible`` are the items that can be placed at all, as bits. Left out is
    what cannot be best or cannot be placed: one item without another that
    could take its place and is as good in everything, and two that do not go
    together.
    """
    clashing = _clashing(board)
    groups = groupby(_best_first(board, possible, clashing), key=lambda choice: choice.worth)
    if _fits(board, possible, clashing):
        # Everything is worth more than anything less: this is the first group, and usually no other is asked for.
        yield (possible,)
        next(groups)
    for _, equal in groups:
        yield tuple(choice.items for choice in equal)


def _fits(board: Board, possible: int, clashing: Sequence[int]) -> bool:
    """Whether the slots that may be filled are enough for all that is possible, and no two of it clash."""
    wanted = [index for index in range(len(board.items)) if possible >> index & 1]
    enough = sum(board.items[index].length for index in wanted) <= board.capacity
    return enough and not any(clashing[index] & possible for index in wanted)


def _best_first(board: Board, possible: int, clashing: Sequence[int]) -> Iterator[Choice]:
    """Best first over the items in turn, each in or out; the bound is the knapsack of those still undecided."""
    worths = _worths(board.items)
    most = _knapsack(board.items, worths, board.capacity)
    worse = _worse(board.items)
    # The worth still possible (negative), the next item, the room left, the worth so far, those in, those that must stay out.
    waiting = [(-most[0][board.capacity], 0, board.capacity, 0, 0, ~possible)]
    while waiting:
        _, index, room, worth, chosen, barred = heappop(waiting)
        if index == len(board.items):
            yield Choice(worth, chosen)
            continue
        bit, left = 1 << index, room - board.items[index].length
        if left >= 0 and not barred & bit:
            gain = worth + worths[index]
            heappush(waiting, (-gain - most[index + 1][left], index + 1, left, gain, chosen | bit, barred | clashing[index]))
        if barred & bit or not chosen & worse[index]:
            out = barred if barred & bit else barred | worse[index]
            heappush(waiting, (-worth - most[index + 1][room], index + 1, room, worth, chosen, out))


def _worths(items: Sequence[Item]) -> list[int]:
    above_all_tasks = 1 + sum(item.value for item in items if not item.routine)
    return [above_all_tasks if item.routine else item.value for item in items]


def _knapsack(items: Sequence[Item], worths: Sequence[int], capacity: int) -> list[list[int]]:
    """By index and number of slots: the most worth that the items from that index on bring into so many slots."""
    table = [[0] * (capacity + 1)]
    for item, worth in zip(reversed(items), reversed(worths), strict=True):
        after = table[-1]
        with_it = [after[room - item.length] + worth for room in range(item.length, capacity + 1)]
        table.append(after[: item.length] + list(map(max, after[item.length :], with_it)))
    return table[::-1]


def _clashing(board: Board) -> list[int]:
    """For each item those that do not go together with it, as bits: neither can follow the other, or both have too few slots."""
    items = board.items
    starts = [starts_of(item.allowed, item.shortest) for item in items]
    soonest_ends = [(each & -each).bit_length() - 1 + item.shortest for each, item in zip(starts, items, strict=True)]
    latest_starts = [each.bit_length() - 1 for each in starts]
    clashing = [0] * len(items)
    for one, first in enumerate(items):
        for other, second in enumerate(items[:one]):
            follows = soonest_ends[one] <= latest_starts[other] or soonest_ends[other] <= latest_starts[one]
            if not follows or (first.allowed | second.allowed).bit_count() < first.length + second.length:
                clashing[one] |= 1 << other
                clashing[other] |= 1 << one
    return clashing


def _worse(items: Sequence[Item]) -> list[int]:
    """For each item those that need not be placed without it, as bits. Of two that are equally good, the later one."""
    worse = [0] * len(items)
    for index, item in enumerate(items):
        for other, rival in enumerate(items):
            if index != other and _could_replace(item, rival) and (index < other or not _could_replace(rival, item)):
                worse[index] |= 1 << other
    return worse


def _could_replace(one: Item, other: Item) -> bool:
    """Whether ``one`` could take the place of ``other`` in any plan, and the plan would be no worse."""
    # Routines are counted, and their value only makes them earlier: there, less is no worse.
    worthy = one.value <= other.value if one.routine else one.value >= other.value
    short = other.whole and one.length <= other.length
    as_short = one.length == other.length and one.shortest <= other.shortest
    anywhere = not other.allowed & ~one.allowed and (other.outdoors or not one.outdoors)
    return one.routine == other.routine and worthy and (short or as_short) and anywhere
