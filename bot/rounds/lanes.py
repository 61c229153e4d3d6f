"""Who is served next: a lane an address, in which parcels keep their order. Pure: clocks are given, and nobody waits in here."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from datetime import datetime
from heapq import heappop, heappush

from storage.outbox import LONGEST_WAIT
from storage.records import RoundKind, Waiting

UNASKED = frozenset(kind.value for kind in RoundKind)

Place = tuple[bool, int, str]


class Lanes:
    """At most one parcel of a lane is out at a time. A lane may rest, by a clock that only moves forward, or be put off, by the calendar.

    Of the lanes that are ready those with an answer in them come first: what
    goes to thousands unasked must not keep anyone waiting who wrote.
    """

    def __init__(self, out: Iterable[str] = ()) -> None:
        """``out`` are the addresses to which something is under way already."""
        self._out = set(out)
        self._lanes: dict[str, deque[Waiting]] = {}
        # The heap also holds places that were given up for a better one; the dictionary says which count.
        self._places: dict[str, Place] = {}
        self._in_line: list[Place] = []
        self._resting: list[tuple[float, str]] = []
        self._put_off: list[tuple[datetime, str]] = []

    def add(self, parcel: Waiting) -> None:
        """The parcel stands last in its lane."""
        lane = self._lanes.setdefault(parcel.address, deque())
        lane.append(parcel)
        if parcel.address in self._places:
            self._stand(parcel.address)
        elif len(lane) == 1 and parcel.address not in self._out:
            self._line_up(parcel.address)

    def next(self, now: datetime, clock: float) -> Waiting | None:
        """The head of the lane that is served next, and which is out from now on; None when none is ready."""
        self._wake(now, clock)
        while self._in_line:
            place = heappop(self._in_line)
            address = place[2]
            if self._places.get(address) == place:
                del self._places[address]
                self._out.add(address)
                return self._lanes[address][0]
        return None

    def over(self, address: str, id: int) -> None:
        """The parcel that was out is done with, and the next one of its lane lines up."""
        self._out.discard(address)
        lane = self._lanes.get(address, deque())
        if lane and lane[0].id == id:
            lane.popleft()
        if lane:
            self._line_up(address)
        else:
            self._lanes.pop(address, None)

    def rest(self, address: str, until: float) -> None:
        """What was out is at the head of its lane again, and the lane rests until then."""
        heappush(self._resting, (until, address))

    def put_off(self, address: str, until: datetime) -> None:
        """The same, but the lane is put off until then."""
        heappush(self._put_off, (until, address))

    def seconds_of_rest(self, clock: float) -> float | None:
        """How long until the next lane has rested; None when none rests."""
        return max(self._resting[0][0] - clock, 0.0) if self._resting else None

    def seconds_put_off(self, now: datetime) -> float | None:
        """How long until the next lane is no longer put off; None when none is."""
        if not self._put_off:
            return None
        return max((self._put_off[0][0] - now).total_seconds(), 0.0) if self._has_to_wait(now) else 0.0

    def _wake(self, now: datetime, clock: float) -> None:
        while self._resting and self._resting[0][0] <= clock:
            self._stand(heappop(self._resting)[1])
        while self._put_off and not self._has_to_wait(now):
            self._stand(heappop(self._put_off)[1])

    def _has_to_wait(self, now: datetime) -> bool:
        """Whether the first of those that are put off is so still; who seems to be for long was so before the clock was put back."""
        return now < self._put_off[0][0] <= now + LONGEST_WAIT

    def _line_up(self, address: str) -> None:
        not_before = self._lanes[address][0].not_before
        if not_before is None:
            self._stand(address)
        else:
            heappush(self._put_off, (not_before, address))

    def _stand(self, address: str) -> None:
        """Gives the lane its place among those that are ready, a better one than it has if an answer came in."""
        self._out.discard(address)
        lane = self._lanes.get(address)
        if not lane:
            return
        place = all(parcel.round in UNASKED for parcel in lane), lane[0].id, address
        if self._places.get(address) != place:
            self._places[address] = place
            heappush(self._in_line, place)
