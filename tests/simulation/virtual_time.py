"""Time that passes only when nothing is left to do: an event loop that jumps to its next timer instead of waiting for it."""

from __future__ import annotations

import asyncio
import heapq
import selectors
from collections.abc import Callable, Mapping
from datetime import datetime, timedelta
from itertools import count
from typing import Any


class Clock:
    """Seconds that only move forward, as a computer's monotonic clock, and the wall clock beside it, which may be set."""

    def __init__(self, starts: datetime) -> None:
        self._starts = starts
        self.seconds = 0.0
        self.ahead = timedelta(0)
        """By how much the wall clock was set forward, or the computer slept while the monotonic clock stood still."""

    def __call__(self) -> datetime:
        """What the wall clock shows, UTC."""
        return self._starts + timedelta(seconds=self.seconds) + self.ahead


class Agenda:
    """What happens outside the program, each at its second, whether the program runs or not."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._waiting: list[tuple[float, int, Callable[[], None]]] = []
        self._numbers = count()

    def at(self, seconds: float, happen: Callable[[], None]) -> None:
        """``happen`` is called when the clock is there."""
        heapq.heappush(self._waiting, (seconds, next(self._numbers), happen))

    @property
    def next(self) -> float | None:
        """The second of what happens next."""
        return self._waiting[0][0] if self._waiting else None

    def pass_time(self, until: float) -> None:
        """Moves the clock to ``until``, or to what happens before that, which then has happened."""
        if self.next is None or self.next > until:
            self._clock.seconds = until
            return
        seconds, _, happen = heapq.heappop(self._waiting)
        self._clock.seconds = max(seconds, self._clock.seconds)
        happen()


class _Jump(selectors.SelectSelector):
    """Lets the time pass that the loop would have waited for. Nothing is ever read or written."""

    def __init__(self, agenda: Agenda, clock: Clock) -> None:
        super().__init__()
        self._agenda = agenda
        self._clock = clock

    def select(self, timeout: float | None = None) -> list[tuple[selectors.SelectorKey, int]]:
        if timeout is None and self._agenda.next is None:
            raise AssertionError("the program waits for what never happens")
        if timeout is None or timeout > 0:
            self._agenda.pass_time(self._agenda.next or 0.0 if timeout is None else self._clock.seconds + timeout)
        return []


class VirtualLoop(asyncio.SelectorEventLoop):
    """An event loop on the world's clock."""

    def __init__(self, clock: Clock, agenda: Agenda) -> None:
        super().__init__(_Jump(agenda, clock))
        self._world_clock = clock
        self.complaints: list[Mapping[str, Any]] = []
        self.set_exception_handler(lambda _loop, context: self.complaints.append(context))

    def time(self) -> float:
        """The world's seconds."""
        return self._world_clock.seconds

    def abandon(self) -> None:
        """Lets go of all that was under way, as memory does when its process dies, and closes."""
        while pending := asyncio.all_tasks(self):
            for task in pending:
                task.cancel()
            try:
                self.run_until_complete(asyncio.gather(*pending, return_exceptions=True))
            except SystemExit:
                continue
        self.close()
