"""What a reply can mean for what stands: the way to commitments, those called off, routines, targets, categories."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TypeAlias, Union


@dataclass(frozen=True, slots=True)
class AllowTravel:
    """Minutes for the way to a commitment and back, None where nothing was said; ``id`` or ``words`` name the commitment."""

    words: str | None
    minutes_before: int | None = None
    minutes_after: int | None = None
    id: int | None = None


@dataclass(frozen=True, slots=True)
class DropRoutine:
    """The routine with that number in the list, or that the words name, is done no more."""

    words: str | None
    number: int | None = None


@dataclass(frozen=True, slots=True)
class DropTarget:
    """No hours a week are wanted in the category any more."""

    category: str


@dataclass(frozen=True, slots=True)
class DropCategory:
    """Nothing is to be noted in the category any more: it is taken away, while nothing names it."""

    category: str


@dataclass(frozen=True, slots=True)
class RenameCategory:
    """The category is called ``name`` from now on, in all that was noted in it too."""

    category: str
    name: str


@dataclass(frozen=True, slots=True)
class TakesPlace:
    """What the words name was called off, on ``day`` or at all, and takes place after all."""

    words: str
    day: date | None = None


StandingMeaning: TypeAlias = Union[TakesPlace, AllowTravel, DropRoutine, DropTarget, DropCategory, RenameCategory]
