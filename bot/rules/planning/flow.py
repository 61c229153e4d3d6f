"""The cheapest flow through a network, in whole numbers.

Successive shortest paths (Busacker and Gowen, 1960; Jewell, 1958): whatever
can still be sent goes along the cheapest path that is left, and back along
arcs in use where that is cheaper, until no path costs less than nothing.

When an arc may then carry less, or must carry more, only what that concerns is
sent another way, and each unit again along the cheapest path: as no circle of
arcs that are left costs less than nothing, none does after it, and so the
whole is the cheapest again.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field
from typing import Final

SOURCE: Final = 0
SINK: Final = 1
ANY: Final = 1 << 60
"""More units than there ever are."""


@dataclass(slots=True)
class Network:
    """Nodes and arcs between them. Costs may be negative, but no circle of arcs may cost less than nothing.

    Arcs are numbers, in pairs: an even one and, one above it, the one that takes back what was sent through it. Of each is known
    where it leads, what a unit costs, and how much still fits through it.
    """

    _heads: list[int] = field(default_factory=list)
    _costs: list[int] = field(default_factory=list)
    _from: list[list[int]] = field(default_factory=lambda: [[], []])
    _rooms: list[int] = field(default_factory=list)

    def copy(self) -> Network:
        """The same nodes and arcs, through which something else may be sent from now on."""
        return Network(self._heads, self._costs, self._from, self._rooms[:])

    def node(self) -> int:
        """A new node."""
        self._from.append([])
        return len(self._from) - 1

    def arc(self, tail: int, head: int, room: int, cost: int) -> int:
        """A new arc through which ``room`` units fit, each at ``cost``; its index is for ``sent``."""
        index = len(self._heads)
        self._heads += head, tail
        self._rooms += room, 0
        self._costs += cost, -cost
        self._from[tail].append(index)
        self._from[head].append(index + 1)
        return index

    def sent(self, arc: int) -> int:
        """How many units go through ``arc`` beyond those that must."""
        return self._rooms[arc ^ 1]

    def send(self) -> int:
        """Sends what makes the whole cheapest, no more and no less, and gives what it costs. To be called once, when all arcs are there."""
        total = units = 0
        while (found := self._cheapest_path(SOURCE, SINK)) and found[0] < 0:
            here = self._send_along(found[1], ANY)
            total, units = total + here * found[0], units + here
        # What is sent another way later may be more or less than now: that is a circle over this arc.
        self._rooms[self.arc(SINK, SOURCE, ANY, 0) ^ 1] = units
        return total

    def at_most(self, arc: int, most: int) -> int | None:
        """Has ``arc`` carry ``most`` units and no more, and gives what the whole costs more then; None when that cannot be."""
        over = max(0, self._rooms[arc ^ 1] - most)
        self._rooms[arc ^ 1] -= over
        self._rooms[arc] = most - self._rooms[arc ^ 1]
        cost = self._send_on(self._heads[arc ^ 1], self._heads[arc], over)
        return None if cost is None else cost - over * self._costs[arc]

    def at_least(self, arc: int, least: int) -> int | None:
        """Has ``arc`` carry ``least`` units that must, and gives what the whole costs more then; None when that cannot be."""
        lacking = max(0, least - self._rooms[arc ^ 1])
        if lacking > self._rooms[arc]:
            return None
        self._rooms[arc] -= lacking
        self._rooms[arc ^ 1] += lacking - least
        cost = self._send_on(self._heads[arc], self._heads[arc ^ 1], lacking)
        return None if cost is None else cost + lacking * self._costs[arc]

    def _send_on(self, start: int, end: int, units: int) -> int | None:
        total = 0
        while units:
            found = self._cheapest_path(start, end)
            if found is None:
                return None
            here = self._send_along(found[1], units)
            total, units = total + here * found[0], units - here
        return total

    def _send_along(self, path: list[int], most: int) -> int:
        units = min(most, *[self._rooms[arc] for arc in path])
        for arc in path:
            self._rooms[arc] -= units
            self._rooms[arc ^ 1] += units
        return units

    def _cheapest_path(self, start: int, end: int) -> tuple[int, list[int]] | None:
        """What a unit costs on the cheapest path, and its arcs, last first; None when there is no path."""
        costs: list[int | None] = [None] * len(self._from)
        came_by = [-1] * len(self._from)
        costs[start] = 0
        waiting = deque([start])
        is_waiting = [False] * len(self._from)
        while waiting:
            node = waiting.popleft()
            is_waiting[node] = False
            here = costs[node]
            assert here is not None
            for arc in self._from[node]:
                if not self._rooms[arc]:
                    continue
                head = self._heads[arc]
                there, known = here + self._costs[arc], costs[head]
                if known is None or there < known:
                    costs[head] = there
                    came_by[head] = arc
                    if not is_waiting[head]:
                        is_waiting[head] = True
                        waiting.append(head)
        cost = costs[end]
        return None if cost is None else (cost, self._path(came_by, start, end))

    def _path(self, came_by: list[int], start: int, end: int) -> list[int]:
        path = []
        node = end
        while node != start:
            path.append(came_by[node])
            node = self._heads[came_by[node] ^ 1]
        return path
