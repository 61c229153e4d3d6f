"""A forecast service in memory that may be down, slow, wrong or half empty."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Callable
from random import Random
from typing import TypeVar

from bot.outside.faults import Fault, ForecastUnavailable
from tests.simulation.chat_service import ChatService
from tests.simulation.fate import Fate
from tests.simulation.virtual_time import Clock

Given = TypeVar("Given")
SLOW_SECONDS = 20.0


class SimulatedSkies:
    """Answers for two days around now, in Open-Meteo's shape."""

    def __init__(self, random: Random, fate: Fate, service: ChatService, clock: Clock) -> None:
        self._random = random
        self._fate = fate
        self._service = service
        self._clock = clock
        self._wait = 0.0

    async def beside(self, work: Callable[[], Given]) -> Given:
        """In the place of a thread: the work is done at once, and a slow answer takes its time on the world's clock."""
        self._wait = 0.0
        try:
            return work()
        finally:
            await asyncio.sleep(self._wait)
            self._fate.demand_alive()

    def fetch(self, latitude: float, longitude: float) -> str:
        """A forecast, or what came in its place. Raises ForecastUnavailable."""
        trouble = self._fate.of("forecast")
        if trouble == "down" or self._service.line_is_down:
            raise ForecastUnavailable(Fault.NOT_REACHED)
        if trouble == "slow":
            self._wait = SLOW_SECONDS
        if trouble == "wrong":
            return "<html>503 later</html>"
        return json.dumps(self._answer(half_empty=trouble == "half-empty"))

    def _answer(self, *, half_empty: bool) -> dict[str, object]:
        now = int(self._clock().timestamp()) // 3600 * 3600
        times = [now + 3600 * number for number in range(-24, 48)]
        names = ("temperature_2m", "precipitation_probability", "precipitation", "weather_code", "wind_speed_10m", "wind_gusts_10m")
        values: dict[str, list[float | None]] = {name: [float(self._random.choice((0, 1, 2, 3)))] * len(times) for name in names}
        if half_empty:
            values = {name: [value if hour % 3 else None for hour, value in enumerate(each)] for name, each in values.items()}
            del values["wind_gusts_10m"]
        shape = {"latitude": 51.05, "longitude": 3.72, "utc_offset_seconds": 0, "timezone": "GMT"}
        return {**shape, "hourly": {"time": times, **values}}
