"""Whether all that has to go on by itself still does."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Final

TELEGRAM: Final = "Telegram"
ALARM: Final = "the alarm"
LONGEST: Final[Mapping[str, float]] = {TELEGRAM: 120.0, ALARM: 600.0}
"""Seconds after which silence is a fault: a poll lasts up to 40, and a tick of the alarm can have thousands of messages to write."""


class Pulse:
    """Beats whenever a part has done its round. ``seconds`` is a clock that only goes forward."""

    def __init__(self, seconds: Callable[[], float], parts: Iterable[str]) -> None:
        self._seconds = seconds
        self._last = dict.fromkeys(parts, seconds())

    def beat(self, part: str) -> None:
        """``part`` has just done its round."""
        self._last[part] = self._seconds()

    def silent(self) -> dict[str, float]:
        """The parts that have been silent for too long, with the seconds since their last beat."""
        now = self._seconds()
        return {part: now - last for part, last in self._last.items() if now - last > LONGEST[part]}
