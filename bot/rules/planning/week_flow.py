"""A week as a flow: from categories over goals to days, each quarter of an hour one unit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from bot.rules.planning.flow import SINK, SOURCE, Network
from bot.rules.planning.week_board import Pair, Shares, WeekBoard

FREE: Final = 0


@dataclass(frozen=True, slots=True)
class Case:
    """What is settled: pairs that have nothing, pairs that have at least the smallest share, goals that have one somewhere.

    ``rooms`` is how much of each day is to be used at most.
    """

    rooms: tuple[int, ...]
    nothing: frozenset[Pair] = frozenset()
    enough: frozenset[Pair] = frozenset()
    somewhere: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Flow:
    """The shares that cost least in ``case`` when shares may be smaller than the smallest, and what they cost.

    The cost compares the cases of one board.
    """

    board: WeekBoard
    case: Case
    cost: int
    arcs: Arcs
    network: Network

    @property
    def shares(self) -> Shares:
        """The quarters of each pair that has any."""
        goals = {
            pair: quarters
            for pair, arc in self.arcs.shares.items()
            if (quarters := self.network.sent(arc) + (self.board.portions[pair[0]].smallest if pair in self.case.enough else 0))
        }
        targets = {pair: quarters for pair, arc in self.arcs.targets.items() if (quarters := self.network.sent(arc))}
        return Shares(goals, targets)

    def within(self, case: Case) -> Flow | None:
        """The cheapest flow of a ``case`` in which more is settled than in this one; None if there is none."""
        network, cost = self.network.copy(), self.cost
        for more in self._settle(network, case):
            if more is None:
                return None
            cost += more
        return Flow(self.board, case, cost, self.arcs, network)

    def _settle(self, network: Network, case: Case) -> Iterator[int | None]:
        """Settles in ``network`` what the case does beyond this one's, a step at a time, and gives what each costs more."""
        for pair in case.nothing - self.case.nothing:
            yield network.at_most(self.arcs.shares[pair], 0)
        for arc, room, before in zip(self.arcs.days, case.rooms, self.case.rooms, strict=True):
            if room < before:
                yield network.at_most(arc, room)
        for pair in case.enough - self.case.enough:
            yield network.at_least(self.arcs.shares[pair], self.board.portions[pair[0]].smallest)
        for goal in case.somewhere - self.case.somewhere:
            yield network.at_least(self.arcs.goals[goal], self.board.portions[goal].smallest)


@dataclass(frozen=True, slots=True)
class Arcs:
    """Which arcs of a network are whose: days, goals, their shares, and the shares of targets for themselves."""

    days: list[int] = field(default_factory=list)
    goals: list[int] = field(default_factory=list)
    shares: dict[Pair, int] = field(default_factory=dict)
    targets: dict[Pair, int] = field(default_factory=dict)


def cheapest(board: WeekBoard, case: Case) -> Flow:
    """The cheapest flow of a case in which nothing must be."""
    network, arcs = Network(), Arcs()
    cost = _Laying(board, case, network, arcs).laid()
    return Flow(board, case, cost, arcs, network)


@dataclass(frozen=True, slots=True)
class _Laying:
    """Lays the arcs of a case.

    What a quarter costs on each level of ``week_objective`` is such that no sum of a lower level reaches a higher one.
    """

    board: WeekBoard
    case: Case
    network: Network
    arcs: Arcs

    def laid(self) -> int:
        """Builds the network, sends the cheapest flow and gives what it costs."""
        short, lacking = _prices(self.board)
        days = [self.network.node() for _ in self.case.rooms]
        self.arcs.days.extend(self.network.arc(node, SINK, room, FREE) for node, room in zip(days, self.case.rooms, strict=True))
        categories = [self._category(index, days, lacking) for index in range(len(self.board.lacks))]
        for index, portion in enumerate(self.board.portions):
            self._goal(index, SOURCE if portion.category is None else categories[portion.category], days, short)
        return self.network.send()

    def _category(self, index: int, days: list[int], lacking: int) -> int:
        """A category: the first quarters make up for what its target lacks. Some may go to days for the target itself."""
        lack, node = self.board.lacks[index], self.network.node()
        most = sum(self.board.rooms) if lack.may_have is None else lack.may_have
        making_up = min(lack.lacks, most)
        self.network.arc(SOURCE, node, making_up, -lacking)
        self.network.arc(SOURCE, node, most - making_up, FREE)
        for day, day_node in enumerate(days):
            self.arcs.targets[index, day] = self.network.arc(node, day_node, lack.lacks, day)
        return node

    def _goal(self, index: int, category: int, days: list[int], short: int) -> None:
        portion, node = self.board.portions[index], self.network.node()
        self.arcs.goals.append(self.network.arc(category, node, portion.wants, -portion.value * short))
        for day in range(portion.first, portion.last + 1):
            if (index, day) not in self.case.nothing:
                self.arcs.shares[index, day] = self.network.arc(node, days[day], portion.wants, portion.weight * day)


def _prices(board: WeekBoard) -> tuple[int, int]:
    """What a quarter costs that a goal is short of, and one that a target lacks."""
    days, room = len(board.rooms), sum(board.rooms)
    latest = days * (room + sum(portion.wants * portion.weight for portion in board.portions))
    short = 1 + latest
    return short, short * (1 + sum(portion.wants * portion.value for portion in board.portions))
