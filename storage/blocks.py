"""Planned hours, proposed or accepted."""

from __future__ import annotations

from sqlalchemy import bindparam

from storage.days import DayShelf
from storage.forms import BLOCKS
from storage.records import Block
from storage.schema import blocks


class Blocks(DayShelf[Block]):
    """The person's blocks, in order of time."""

    between_days = BLOCKS.mine(blocks.c.day.between(bindparam("first"), bindparam("last")), order=(blocks.c.starts,))
