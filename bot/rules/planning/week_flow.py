"""A week as a flow: from categories over goals to days, each quarter of an hour one unit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from bot.rules.planning.flow import SINK, SOURCE, Network
from bot.rules.planning.week_board import Pair, Shares, WeekBoard

FREE: Final = 0


@dataclass(frozen=True, slots=True)
class Case:
    """What is settled: pairs that have nothing, pairs that have at least the smallest share, goals that have one somewhere."""

    nothing: frozenset[Pair] = frozenset()
    enough: frozenset[Pair] = frozenset()
    somewhere: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Prices:
    """What a quarter costs on each level, so that no sum of a lower level reaches a higher one."""

    short: int
    lacking: int
    obliged: int


def prices_of(board: WeekBoard) -> Prices:
    """The prices of ``week_objective``'s levels on ``board``; what a case obliges to comes before them all."""
    days, room = len(board.rooms), sum(board.rooms)
    latest = days * (room + sum(portion.wants * portion.weight for portion in board.portions))
    short = 1 + latest
    lacking = short * (1 + sum(portion.wants * portion.value for portion in board.portions))
    return Prices(short, lacking, lacking * (1 + room))


def cheapest(board: WeekBoard, prices: Prices, case: Case, rooms: tuple[int, ...]) -> tuple[int, Shares] | None:
    """The shares that cost least in ``case`` when shares may be smaller than the smallest, and what they cost; None if there are none.

    ``rooms`` is how much of each day is to be used at most. The cost compares
    the cases of one board.
    """
    flow = _Flow(board, prices, case)
    cost = flow.send(rooms)
    obliged = [board.portions[index].smallest for index, _ in case.enough] + [board.portions[index].smallest for index in case.somewhere]
    met = all(flow.network.sent(arc) == flow.obliged[arc] for arc in flow.obliged)
    return (cost + prices.obliged * sum(obliged), Shares(flow.sent(flow.goals), flow.sent(flow.targets))) if met else None


@dataclass(slots=True)
class _Flow:
    """The network of one case, and which of its arcs are whose."""

    board: WeekBoard
    prices: Prices
    case: Case
    network: Network = field(default_factory=Network)
    goals: dict[Pair, list[int]] = field(default_factory=dict)
    targets: dict[Pair, list[int]] = field(default_factory=dict)
    obliged: dict[int, int] = field(default_factory=dict)

    def send(self, rooms: tuple[int, ...]) -> int:
        """Builds the network, sends the cheapest flow and gives what it costs."""
        days = [self.network.node() for _ in rooms]
        for node, room in zip(days, rooms, strict=True):
            self.network.arc(node, SINK, room, FREE)
        categories = [self._category(index, days) for index in range(len(self.board.lacks))]
        for index, portion in enumerate(self.board.portions):
            self._goal(index, SOURCE if portion.category is None else categories[portion.category], days)
        return self.network.send()

    def sent(self, arcs: Mapping[Pair, list[int]]) -> dict[Pair, int]:
        """The units that went through each pair's arcs, where there are any."""
        units = {pair: sum(map(self.network.sent, each)) for pair, each in arcs.items()}
        return {pair: count for pair, count in units.items() if count}

    def _category(self, index: int, days: list[int]) -> int:
        """A category: the first quarters make up for what its target lacks. Some may go to days for the target itself."""
        lack, node = self.board.lacks[index], self.network.node()
        most = sum(self.board.rooms) if lack.may_have is None else lack.may_have
        making_up = min(lack.lacks, most)
        self.network.arc(SOURCE, node, making_up, -self.prices.lacking)
        self.network.arc(SOURCE, node, most - making_up, FREE)
        for day, day_node in enumerate(days):
            self.targets[index, day] = [self.network.arc(node, day_node, lack.lacks, day)]
        return node

    def _goal(self, index: int, category: int, days: list[int]) -> None:
        portion, node = self.board.portions[index], self.network.node()
        least = portion.smallest if index in self.case.somewhere else 0
        self._arcs(category, node, least, portion.wants, -portion.value * self.prices.short)
        for day in range(portion.first, portion.last + 1):
            if (index, day) not in self.case.nothing:
                least = portion.smallest if (index, day) in self.case.enough else 0
                self.goals[index, day] = self._arcs(node, days[day], least, portion.wants, portion.weight * day)

    def _arcs(self, tail: int, head: int, least: int, most: int, cost: int) -> list[int]:
        """One arc for ``most`` units, or two of which the first is obliged to carry ``least``: nothing is as cheap as that."""
        if not least:
            return [self.network.arc(tail, head, most, cost)]
        obliged = self.network.arc(tail, head, least, cost - self.prices.obliged)
        self.obliged[obliged] = least
        return [obliged, self.network.arc(tail, head, most - least, cost)]
