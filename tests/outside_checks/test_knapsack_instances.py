"""Published problems with known optima, solved by the planner's own search.

A free stretch is a knapsack, several are several knapsacks, a task with a
window as long as itself is an interval, and a deadline is a window.
"""

from __future__ import annotations

import pytest

from bot.rules.planning.board import Board, Item, Piece, slots_between
from bot.rules.planning.solving import solve

# Source: J. Burkardt, KNAPSACK_01, data sets P01 to P07 (people.sc.fsu.edu/~jburkardt/datasets/knapsack_01).
KNAPSACKS = [
    ("P01", 165, "23 31 29 44 53 38 63 85 89 82", "92 57 49 68 60 43 67 84 87 72", 309, "1111010000"),
    ("P02", 26, "12 7 11 8 9", "24 13 23 15 16", 51, "01110"),
    ("P03", 190, "56 59 80 64 75 17", "50 50 64 46 50 5", 150, "110010"),
    ("P04", 50, "31 10 20 19 4 3 6", "70 20 39 37 7 5 10", 107, "1001000"),
    ("P05", 104, "25 35 45 5 25 3 2 2", "350 400 450 20 70 8 5 5", 900, "10111011"),
    ("P06", 170, "41 50 49 59 55 57 60", "442 525 511 593 546 564 617", 1735, "0101001"),
    (
        "P07",
        750,
        "70 73 77 80 82 87 90 94 98 106 110 113 115 118 120",
        "135 139 149 150 156 163 173 184 192 201 210 214 221 229 240",
        1458,
        "101010111000011",
    ),
]


# Source: J. Burkardt, BIN_PACKING, data sets P01, P02 and P04, bins of 100 (people.sc.fsu.edu/~jburkardt/datasets/bin_packing).
BINS = [
    ("70 60 50 33 33 33 11 7 3", 4),
    ("99 94 79 64 50 46 43 37 32 19 18 7 6 3", 7),
    ("49 41 34 33 29 26 26 22 20 19", 3),
]


def _stretches(count: int, things: list[int]) -> Board:
    """Free stretches of 100 slots each, apart from each other."""
    free = sum(slots_between(101 * number, 101 * number + 100) for number in range(count))
    return _board(free, [_whole(thing, 1, free) for thing in things])


def _board(free: int, items: list[Item]) -> Board:
    slots = free.bit_length()
    return Board(slots, free, free.bit_count(), (0,) * slots, tuple(items))


def _whole(length: int, value: int, allowed: int) -> Item:
    return Item(length, value, length, allowed)


def _value(board: Board, pieces: tuple[Piece, ...]) -> int:
    return sum(board.items[piece.item].value for piece in pieces)


@pytest.mark.parametrize(("name", "capacity", "weights", "profits", "optimum", "selection"), KNAPSACKS, ids=[row[0] for row in KNAPSACKS])
def test_one_free_stretch_is_filled_as_the_knapsack_is(
    name: str, capacity: int, weights: str, profits: str, optimum: int, selection: str
) -> None:
    free = slots_between(0, capacity)
    board = _board(free, [_whole(int(weight), int(profit), free) for weight, profit in zip(weights.split(), profits.split(), strict=True)])

    pieces = solve(board).pieces

    assert _value(board, pieces) == optimum
    # Each of these optima is the only one.
    assert {piece.item for piece in pieces} == {index for index, chosen in enumerate(selection) if chosen == "1"}


def test_two_free_stretches_are_filled_as_two_knapsacks_are() -> None:
    # Source: Martello and Toth, Knapsack Problems, 1990, the example of chapter 6: capacities 103 and 156, optimum 452.
    free = slots_between(0, 103) | slots_between(104, 104 + 156)
    weights, profits = [18, 9, 23, 20, 59, 61, 70, 75, 76, 30], [78, 35, 89, 36, 94, 75, 74, 79, 80, 16]
    board = _board(free, [_whole(weight, profit, free) for weight, profit in zip(weights, profits, strict=True)])

    pieces = solve(board).pieces

    assert _value(board, pieces) == 452
    chosen = frozenset(piece.item for piece in pieces if piece.start < 103), frozenset(piece.item for piece in pieces if piece.start > 103)
    assert chosen in {(frozenset({0, 2, 5}), frozenset({3, 4, 8})), (frozenset({2, 3, 4}), frozenset({0, 5, 8}))}


def test_of_intervals_that_overlap_the_most_that_go_together_are_chosen() -> None:
    # Source: Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms, activity selection: at most 4 of these 11.
    starts, finishes = [1, 3, 0, 5, 3, 5, 6, 8, 8, 2, 12], [4, 5, 6, 7, 9, 9, 10, 11, 12, 14, 16]
    items = [_whole(end - start, 1, slots_between(start, end)) for start, end in zip(starts, finishes, strict=True)]
    board = _board(slots_between(0, 16), items)

    assert len(solve(board).pieces) == 4


def test_as_many_deadlines_are_met_as_can_be() -> None:
    # Source: Pinedo, Scheduling, example 3.3.3 (Moore and Hodgson): of these 5 jobs at least 2 are late.
    lengths, deadlines = [7, 8, 4, 6, 6], [9, 17, 18, 19, 21]
    board = _board(slots_between(0, 21), [_whole(length, 1, slots_between(0, due)) for length, due in zip(lengths, deadlines, strict=True)])

    assert len(solve(board).pieces) == 3


@pytest.mark.parametrize(("sizes", "fewest"), BINS)
def test_things_go_into_as_few_free_stretches_as_into_bins(sizes: str, fewest: int) -> None:
    things = [int(size) for size in sizes.split()]

    fitting = solve(_stretches(fewest, things))
    # No plan waits for so many states as it takes to prove the second of these.
    one_fewer = solve(_stretches(fewest - 1, things), most_states=100_000)

    assert len(fitting.pieces) == len(things)
    assert len(one_fewer.pieces) < len(things)
    assert one_fewer.proven
