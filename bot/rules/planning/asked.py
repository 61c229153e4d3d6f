"""What a day's plan is asked from. Instants are UTC, lengths whole minutes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum
from typing import Final

from bot.rules.spans import Span

STEP: Final = timedelta(minutes=15)
"""Blocks start and end on full quarters of an hour: of UTC, and so of every zone in use."""

STEP_MINUTES: Final = STEP // timedelta(minutes=1)


class Sort(StrEnum):
    """What is wanted: routines are placed before tasks."""

    ROUTINE = "routine"
    TASK = "task"


@dataclass(frozen=True, slots=True)
class Wanted:
    """A routine or a task that wants a place in the day.

    ``key`` names it in the plan. ``value`` is at least 1: see ``worth``.
    ``smallest_minutes`` is the shortest piece it may be split into, None when
    it may not be split. It lies within ``window`` if there is one, and
    ``outdoors`` keeps it out of wet hours. Raises ValueError for a value or a
    length below 1.
    """

    key: str
    minutes: int
    value: int = 1
    sort: Sort = Sort.TASK
    window: Span | None = None
    smallest_minutes: int | None = None
    outdoors: bool = False

    def __post_init__(self) -> None:
        if min(self.minutes, self.value, self.smallest_minutes or 1) < 1:
            raise ValueError(f"{self.key}: minutes, value and smallest piece are at least 1")


@dataclass(frozen=True, slots=True)
class Fixed:
    """Time that is taken: a commitment, and the minutes before and after it that getting there and back take."""

    span: Span
    minutes_before: int = 0
    minutes_after: int = 0

    @property
    def taken(self) -> Span:
        """All the time that is not free because of it."""
        if not self.minutes_before and not self.minutes_after:
            return self.span
        return Span(self.span.starts - timedelta(minutes=self.minutes_before), self.span.ends + timedelta(minutes=self.minutes_after))


@dataclass(frozen=True, slots=True)
class Block:
    """Planned hours for what ``key`` names."""

    key: str
    span: Span


@dataclass(frozen=True, slots=True)
class Sky:
    """What is forecast for ``span``: the chance of rain in percent, and whether it counts as dry."""

    span: Span
    wet_chance: int
    dry: bool


@dataclass(frozen=True, slots=True)
class OpenDay:
    """A day to be planned.

    ``window`` is the waking window, or what is left of it. Of the time in it
    that ``fixed`` leaves free, ``free_share`` percent stay free. Blocks that
    are ``kept`` stay where they are and count as filled. Where ``skies`` say
    nothing, it may be dry or wet.
    """

    window: Span
    fixed: tuple[Fixed, ...] = ()
    wanted: tuple[Wanted, ...] = ()
    skies: tuple[Sky, ...] = ()
    kept: tuple[Block, ...] = ()
    free_share: int = 20
