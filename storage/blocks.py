"""Planned hours, proposed or accepted."""

from __future__ import annotations

from datetime import date

from sqlalchemy import bindparam

from storage.forms import BLOCKS
from storage.records import Block
from storage.schema import blocks
from storage.shelf import Shelf

_BETWEEN = BLOCKS.mine(blocks.c.day.between(bindparam("first"), bindparam("last")), order=(blocks.c.starts,))


class Blocks(Shelf[Block]):
    """The person's blocks, in order of time."""

    def on(self, day: date) -> tuple[Block, ...]:
        """Those of the local day."""
        return self.between(day, day)

    def between(self, first: date, last: date) -> tuple[Block, ...]:
        """Those of all local days from ``first`` to ``last``, both included."""
        return self.many(_BETWEEN, first=first, last=last)
