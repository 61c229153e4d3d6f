"""Planned hours of any sort: an occurrence of a commitment, or a block of a plan."""

from __future__ import annotations

from datetime import date
from typing import Protocol

from bot.rules.spans import Timed


class Planned(Timed, Protocol):
    """Hours planned on a local day."""

    @property
    def day(self) -> date:
        """The local day they start on."""

    @property
    def title(self) -> str:
        """What they are for."""

    @property
    def category_id(self) -> int | None:
        """What they count for, if anything."""
