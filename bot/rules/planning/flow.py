"""The cheapest flow through a network, in whole numbers.

Successive shortest paths (Busacker and Gowen, 1960; Jewell, 1958): whatever
can still be sent goes along the cheapest path that is left, and back along
arcs in use where that is cheaper, until no path costs less than nothing.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field
from typing import Final

SOURCE: Final = 0
SINK: Final = 1


@dataclass(slots=True)
class Network:
    """Nodes and arcs between them. Costs may be negative, but no circle of arcs may cost less than nothing.

    Arcs are numbers, in pairs: an even one and, one above it, the one that takes back what was sent through it. Of each is known
    where it leads, how much still fits through it, and what a unit costs.
    """

    _heads: list[int] = field(default_factory=list)
    _rooms: list[int] = field(default_factory=list)
    _costs: list[int] = field(default_factory=list)
    _from: list[list[int]] = field(default_factory=lambda: [[], []])

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
        """How many units go through ``arc``."""
        return self._rooms[arc ^ 1]

    def send(self) -> int:
        """Sends what makes the whole cheapest, no more and no less, and gives what it costs."""
        total = 0
        while path := self._cheapest_path():
            units = min(self._rooms[arc] for arc in path)
            for arc in path:
                self._rooms[arc] -= units
                self._rooms[arc ^ 1] += units
                total += units * self._costs[arc]
        return total

    def _cheapest_path(self) -> list[int]:
        """The arcs of the cheapest path from source to sink, last first; none when it would save nothing."""
        costs: list[int | None] = [None] * len(self._from)
        came_by = [-1] * len(self._from)
        costs[SOURCE] = 0
        waiting = deque([SOURCE])
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
        saved = costs[SINK]
        return self._path(came_by) if saved is not None and saved < 0 else []

    def _path(self, came_by: list[int]) -> list[int]:
        path = []
        node = SINK
        while node != SOURCE:
            path.append(came_by[node])
            node = self._heads[came_by[node] ^ 1]
        return path
