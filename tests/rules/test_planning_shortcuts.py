"""What the planner need not look at changes no plan: each time it is looked at here all the same."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import islice
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.rules.planning import choosing
from bot.rules.planning.arranging import Arranging, State
from bot.rules.planning.asked import OpenDay
from bot.rules.planning.board import Board, Piece
from bot.rules.planning.bounding import Bounding
from bot.rules.planning.choosing import choices
from bot.rules.planning.day import plan_day
from bot.rules.planning.laying_out import grid_of, laid_out
from bot.rules.planning.solving import solve
from bot.rules.spans import Span
from tests.outside_checks.made_weeks import random_day
from tests.rules.naive_days import naive

PER_LATENESS = 10_000  # More than any wetness of a day.

days = st.integers(0, 10**6).map(lambda seed: random_day(Random(seed)))


def board_of(day: OpenDay, most_wanted: int) -> Board:
    """The day with so many wanted at most, in order of value, as the search has them."""
    wanted = sorted(day.wanted[-most_wanted:], key=lambda each: -each.value)
    return laid_out(replace(day, wanted=tuple(wanted)), grid_of(day.window))


def slots_in(slots: int) -> frozenset[int]:
    return frozenset(slot for slot in range(slots.bit_length()) if slots >> slot & 1)


@given(days, st.integers(0, 59), st.integers(0, 59))
def test_a_board_is_the_day_read_quarter_by_quarter(day: OpenDay, later: int, sooner: int) -> None:
    # Source: the day read without the planner's own code.
    day = replace(day, window=Span(day.window.starts + timedelta(minutes=later), day.window.ends - timedelta(minutes=sooner)))
    board, read = laid_out(day, grid_of(day.window)), naive(day)

    assert (board.slots, slots_in(board.free), board.capacity) == (read.slots, read.free, read.may_fill)
    assert [slots_in(item.allowed) for item in board.items] == [thing.allowed for thing in read.things]
    assert board.wet == read.wet or not any(wanted.outdoors for wanted in day.wanted)


@given(days)
@settings(max_examples=40)
def test_the_sky_changes_no_plan_of_a_day_with_nothing_outdoors(day: OpenDay) -> None:
    indoors = replace(day, wanted=tuple(replace(wanted, outdoors=False) for wanted in day.wanted))

    assert plan_day(indoors) == plan_day(replace(indoors, skies=()))


@given(days)
def test_what_is_alone_and_in_one_piece_lies_where_a_search_would_put_it(day: OpenDay) -> None:
    for wanted in day.wanted:
        board = laid_out(replace(day, wanted=(replace(wanted, smallest_minutes=None),)), grid_of(day.window))
        searched = Arranging(board).best([1]) if board.items[0].length <= board.capacity else None

        assert solve(board).pieces == (searched or ())


@given(days, st.integers(1, 9))
def test_everything_that_goes_together_is_the_first_choice_of_all(day: OpenDay, most_wanted: int) -> None:
    board = board_of(day, most_wanted)
    everything = (1 << len(board.items)) - 1
    found = list(islice(choices(board, everything), 30))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(choosing, "_fits", lambda *_: False)

        assert found == list(islice(choices(board, everything), 30))


class AllAtOnce(Arranging):
    """The search with all steps of a state taken as soon as it is its turn."""

    def _go_on(self, state: State) -> None:
        number = next(self._numbers)
        for piece in (*self._steps.finishing(state.slot, state.rest), *self._steps.splitting(state.slot, state.rest)):
            self._place(number, state, piece)


@given(days, st.integers(1, 5), st.sampled_from([None, 15, 30]))
@settings(max_examples=100, deadline=None)
def test_steps_that_wait_for_their_time_end_in_the_plan_of_steps_taken_all_at_once(
    day: OpenDay, most_wanted: int, smallest: int | None
) -> None:
    # Of things that may all be split and matter the same there are many plans that differ in their splits alone.
    alike = tuple(replace(wanted, value=1, smallest_minutes=smallest) for wanted in day.wanted)
    board = board_of(day if smallest is None else replace(day, wanted=alike), most_wanted)
    everything = (1 << len(board.items)) - 1

    assert Arranging(board, 10**6).best([everything]) == AllAtOnce(board, 10**6).best([everything])


@given(days, st.integers(1, 6))
@settings(max_examples=60)
def test_no_bound_is_above_what_the_rest_of_the_best_plan_costs(day: OpenDay, most_wanted: int) -> None:
    board = board_of(day, most_wanted)
    bounding = Bounding(board, PER_LATENESS)
    pieces = solve(board).pieces

    for number in range(len(pieces) + 1):
        following = pieces[number:]
        rest = tuple(sum(piece.length for piece in following if piece.item == index) for index in range(len(board.items)))
        slot = pieces[number - 1].end if number else 0
        assert 0 <= bounding.least(slot, rest) <= sum(_cost(board, piece) for piece in following)


def _cost(board: Board, piece: Piece) -> int:
    item, slots = board.items[piece.item], range(piece.start, piece.end)
    return item.value * sum(slots) * PER_LATENESS + item.outdoors * sum(board.wet[slot] for slot in slots)
