"""What pictures show, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time


@dataclass(frozen=True, slots=True)
class Piece:
    """Time planned or spent between two UTC instants. Without a category it is drawn in grey."""

    label: str
    category: str | None
    starts: datetime
    ends: datetime


@dataclass(frozen=True, slots=True)
class Loose:
    """Minutes spent on a day, nobody said when."""

    category: str
    day: date
    minutes: int


@dataclass(frozen=True, slots=True)
class CategoryShown:
    """A category of the week: its CSS colour, its minutes planned and spent, and its target."""

    name: str
    colour: str
    planned: int = 0
    spent: int = 0
    at_least: int | None = None
    at_most: int | None = None


@dataclass(frozen=True, slots=True)
class WeekView:
    """Seven local days in ``zone`` from ``first`` on. ``categories`` are in the person's order."""

    first: date
    zone: str
    categories: tuple[CategoryShown, ...]
    planned: tuple[Piece, ...] = ()
    spent: tuple[Piece, ...] = ()
    loose: tuple[Loose, ...] = ()
    waking_start: time = time(6)
    waking_end: time = time(21)


@dataclass(frozen=True, slots=True)
class CategoryWeeks:
    """A category's minutes in each of the weeks shown, oldest first."""

    name: str
    minutes: tuple[int, ...]
    at_least: int | None = None
    at_most: int | None = None


@dataclass(frozen=True, slots=True)
class HoursView:
    """Weeks by their first days, oldest first, and what was spent in them.

    ``colours`` are all of the person's categories in their order, with their CSS colours, so that each keeps its own.
    """

    weeks: tuple[date, ...]
    categories: tuple[CategoryWeeks, ...]
    colours: tuple[tuple[str, str], ...]
