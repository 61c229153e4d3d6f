"""What happened in a life, told as a rehearsal script; what no script can say stands in remarks."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from tests.simulation.virtual_time import Clock


class Story:
    """Grows line by line."""

    def __init__(self, seed: int, zone: ZoneInfo, clock: Clock) -> None:
        self._zone = zone
        self._clock = clock
        self._lines = [f"# seed {seed}, zone {zone.key}"]

    def said(self, line: str, chat: int) -> None:
        """Something that a person said was handled now."""
        self._lines += [f"at {self._local:%Y-%m-%d %H:%M}", line if chat == 11 else f"# the other person: {line}"]

    def trouble(self, what: str) -> None:
        """Something went wrong."""
        self._lines.append("crash" if what.endswith(("dies", "dies accepted")) else f"# {self._local:%H:%M:%S} {what}")

    def remark(self, what: str) -> None:
        """Something happened around the program."""
        self._lines.append(f"# {self._local:%Y-%m-%d %H:%M:%S} {what}")

    def __str__(self) -> str:
        return "\n".join(self._lines)

    @property
    def _local(self) -> object:
        return self._clock().astimezone(self._zone)
