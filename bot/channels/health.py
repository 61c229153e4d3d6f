"""Says over HTTP whether all goes well: ``GET /health`` gives 200 or, when a part has been silent for too long, 503."""

from __future__ import annotations

import asyncio

from tornado.web import RequestHandler

from bot.channels.http_server import served
from bot.rounds.pulse import Pulse
from bot.settings_run import Address


async def tell_health(address: Address, pulse: Pulse) -> None:
    """Answers whoever asks at ``address``, for ever. Raises OSError when it is taken."""
    async with served(address, [("/health", _Health, {"pulse": pulse})]):
        await asyncio.Event().wait()


class _Health(RequestHandler):
    def initialize(self, pulse: Pulse) -> None:
        self._pulse = pulse

    async def get(self) -> None:
        silent = self._pulse.silent()
        self.set_status(503 if silent else 200)
        self.set_header("Content-Type", "text/plain; charset=utf-8")
        self.finish("".join(f"{part} has been silent for {seconds:.0f} s\n" for part, seconds in silent.items()) or "in order\n")
