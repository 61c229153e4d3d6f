"""Something to wait at: for a while, or until somebody rings."""

from __future__ import annotations

import asyncio
from contextlib import suppress


class Bell:
    """Rung ahead of time, it lets the next who waits go on at once."""

    def __init__(self) -> None:
        self._rung = asyncio.Event()

    def ring(self) -> None:
        """Whoever waits goes on."""
        self._rung.set()

    async def wait(self, seconds: float) -> None:
        """Until it rings, or for so many seconds."""
        # In Python 3.11, asyncio.wait_for loses a cancellation that comes just as it is woken; asyncio.timeout does not.
        with suppress(TimeoutError):
            async with asyncio.timeout(seconds):
                await self._rung.wait()
        self._rung.clear()
