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
class _Arc:
    """An arc to ``head`` with what still fits through it; the arc with the index ``back`` takes it back."""

    head: int
    room: int
    cost: int
    back: int


@dataclass(slots=True)
class Network:
    """Nodes and arcs between them. Costs may be negative, but no circle of arcs may cost less than nothing."""

    _arcs: list[_Arc] = field(default_factory=list)
    _from: list[list[int]] = field(default_factory=lambda: [[], []])

    def node(self) -> int:
        """A new node."""
        self._from.append([])
        return len(self._from) - 1

    def arc(self, tail: int, head: int, room: int, cost: int) -> int:
        """A new arc through which ``room`` units fit, each at ``cost``; its index is for ``sent``."""
        index = len(self._arcs)
        self._arcs += _Arc(head, room, cost, index + 1), _Arc(tail, 0, -cost, index)
        self._from[tail].append(index)
        self._from[head].append(index + 1)
        return index

    def sent(self, arc: int) -> int:
        """How many units go through ``arc``."""
        return self._arcs[arc + 1].room

    def send(self) -> int:
        """Sends what makes the whole cheapest, no more and no less, and gives what it costs."""
        total = 0
        while path := self._cheapest_path():
            units = min(self._arcs[index].room for index in path)
            for index in path:
                arc = self._arcs[index]
                arc.room -= units
                self._arcs[arc.back].room += units
                total += units * arc.cost
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
            for index in self._from[node]:
                arc = self._arcs[index]
                if not arc.room:
                    continue
                there, known = here + arc.cost, costs[arc.head]
                if known is None or there < known:
                    costs[arc.head] = there
                    came_by[arc.head] = index
                    if not is_waiting[arc.head]:
                        is_waiting[arc.head] = True
                        waiting.append(arc.head)
        saved = costs[SINK]
        return self._path(came_by) if saved is not None and saved < 0 else []

    def _path(self, came_by: list[int]) -> list[int]:
        path = []
        node = SINK
        while node != SOURCE:
            path.append(came_by[node])
            node = self._arcs[self._arcs[came_by[node]].back].head
        return path
