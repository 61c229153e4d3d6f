"""Planned hours of any sort: an occurrence of a commitment, or a block of a plan."""

from __future__ import annotations

from datetime import date
from typing import Protocol

from bot.rules.spans import Timed
from storage.records import Block


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


def purpose_of(planned: Planned) -> tuple[str | None, tuple[int, ...]]:
    """The note and the ids of tasks that hours get which are told by the plan: a routine's title, or the task of the block."""
    if not isinstance(planned, Block):
        return None, ()
    return planned.title if planned.routine_id else None, (planned.task_id,) if planned.task_id else ()
