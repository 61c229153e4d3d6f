"""The cheapest flow beside all flows there are, from the beginning and after its bounds were changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.rules.planning.flow import SINK, SOURCE, Network
from bot.rules.planning.sharing import share_out
from bot.rules.planning.week import board_of
from bot.rules.planning.week_flow import Case, cheapest
from tests.outside_checks.made_weeks import random_week

ONE, OTHER = 2, 3
WAYS = ((SOURCE, ONE), (SOURCE, OTHER), (ONE, OTHER), (ONE, SINK), (OTHER, SINK), (SOURCE, ONE), (OTHER, SINK))


@dataclass(frozen=True)
class Arc:
    """From where to where, how many units at least and at most, and what one costs."""

    way: tuple[int, int]
    least: int
    most: int
    cost: int


networks = st.lists(st.builds(Arc, st.sampled_from(WAYS), st.just(0), st.integers(0, 3), st.integers(-4, 3)), min_size=1, max_size=6)
changes = st.lists(st.tuples(st.integers(0, 5), st.booleans(), st.integers(0, 3)), max_size=4, unique_by=lambda change: change[0])


def sent_through(arcs: Sequence[Arc]) -> tuple[Network, list[int], int]:
    """The network with what is cheapest sent through it, its arcs, and what that costs."""
    network = Network()
    assert (network.node(), network.node()) == (ONE, OTHER)
    numbers = [network.arc(*arc.way, arc.most, arc.cost) for arc in arcs]
    return network, numbers, network.send()


def least_cost(arcs: Sequence[Arc]) -> int | None:
    """What the cheapest of all flows costs, or None when there is none."""
    flows = [flow for flow in product(*(range(arc.least, arc.most + 1) for arc in arcs)) if _is_flow(flow, arcs)]
    return min((sum(units * arc.cost for units, arc in zip(flow, arcs, strict=True)) for flow in flows), default=None)


def _is_flow(flow: Sequence[int], arcs: Sequence[Arc]) -> bool:
    def left(node: int) -> int:
        return sum(units * ((arc.way[1] == node) - (arc.way[0] == node)) for units, arc in zip(flow, arcs, strict=True))

    return left(ONE) == left(OTHER) == 0


@given(networks)
def test_no_flow_is_cheaper_than_the_one_that_is_sent(arcs: list[Arc]) -> None:
    # Source: every flow there is, tried one by one.
    network, numbers, cost = sent_through(arcs)

    assert cost == least_cost(arcs)
    assert _is_flow([network.sent(number) for number in numbers], arcs)


@given(networks, changes)
@settings(max_examples=300)
def test_none_is_cheaper_after_arcs_were_told_to_carry_less_or_more(arcs: list[Arc], told: list[tuple[int, bool, int]]) -> None:
    # Source: every flow there is, tried one by one.
    network, numbers, cost = sent_through(arcs)
    for index, at_least, units in ((index, at_least, units) for index, at_least, units in told if index < len(arcs)):
        most = arcs[index].most
        arcs[index] = replace(arcs[index], least=units) if at_least else replace(arcs[index], most=min(units, most))
        change = network.at_least if at_least else network.at_most
        more = change(numbers[index], units if at_least else min(units, most))
        if more is None:
            assert least_cost(arcs) is None
            return
        cost += more

    assert cost == least_cost(arcs)
    assert _is_flow([network.sent(number) + arc.least for number, arc in zip(numbers, arcs, strict=True)], arcs)


@given(st.integers(0, 10**6), st.integers(0, 10**6))
@settings(max_examples=60)
def test_a_case_that_starts_from_the_flow_it_lies_in_costs_what_it_costs_from_the_beginning(seed: int, drawn: int) -> None:
    board = board_of(random_week(Random(seed)))
    random = Random(drawn)
    pairs = [(goal, day) for goal, portion in enumerate(board.portions) for day in range(portion.first, portion.last + 1)]
    nothing = frozenset(random.sample(pairs, len(pairs) // 3))
    rooms = tuple(random.randint(0, room) for room in board.rooms)
    whole, case = cheapest(board, Case(board.rooms)), Case(rooms, nothing)

    within, alone = whole.within(case), cheapest(board, case)

    assert within is not None
    assert within.cost == alone.cost
    # Other cases start from the same flow.
    assert whole == cheapest(board, Case(board.rooms))


@given(st.integers(0, 10**6))
@settings(max_examples=30)
def test_the_same_week_gives_the_same_shares(seed: int) -> None:
    board = board_of(random_week(Random(seed)))

    assert share_out(board, 50) == share_out(board, 50)
