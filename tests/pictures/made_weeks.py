"""Weeks to draw: an empty one, a usual one and an overfull one, and some months of hours."""

from __future__ import annotations

from datetime import datetime, timedelta
from random import Random
from typing import Final
from zoneinfo import ZoneInfo

from bot.pictures.views import CategoryShown, CategoryWeeks, HoursView, Loose, Piece, WeekView
from bot.voice.manners import Manners
from storage.records import DateOrder
from tests.rules.made import BRUSSELS, MONDAY, wall

MANNERS: Final = Manners(ZoneInfo(BRUSSELS), DateOrder.DAY_MONTH, MONDAY + timedelta(days=6))
COLOURS: Final = {
    "workshop": "teal",
    "museum": "goldenrod",
    "learning": "steelblue",
    "family": "tomato",
    "home": "olivedrab",
    "choir": "purple",
}
TARGETS: Final = {"learning": 4 * 60, "family": 6 * 60}

USUAL_PLAN: Final = """
workshop: 0 09:00-13:00, 1 09:00-13:00, 3 09:00-13:00
museum: 1 14:00-18:00, 2 13:00-17:00, 4 10:00-17:00
learning: 0 19:00-21:00, 3 19:00-20:30
family: 5 15:00-18:00, 6 12:00-14:00
: 2 09:30-10:15 dentist
"""
USUAL_SPENT: Final = """
workshop: 0 09:05-13:20, 1 09:00-12:30, 3 09:00-13:40
museum: 1 13:55-18:00, 2 13:00-17:30, 4 09:50-17:10
learning: 0 19:30-20:40
family: 5 15:00-19:30, 6 12:00-14:30
"""
FULL_PLAN: Final = """
workshop: 0 07:00-12:00, 1 07:00-12:00, 2 07:00-12:00, 3 07:00-12:00, 4 07:00-12:00, 5 08:00-12:00
museum: 0 12:30-17:30, 1 12:30-17:30, 2 11:00-16:00, 3 12:30-17:30, 4 12:30-20:00, 5 13:00-18:00, 6 10:00-18:00
learning: 0 18:00-21:00, 1 18:00-21:00, 2 18:00-21:30, 3 18:00-21:00
family: 4 19:00-22:00, 5 16:00-22:00, 6 12:00-15:00
home: 5 17:00-18:30, 6 08:00-09:30
choir: 2 19:30-21:30
: 1 09:30-10:15 dentist, 2 11:30-12:30 tyre delivery, 5 17:30-18:00 neighbours
"""
FULL_SPENT: Final = """
workshop: 0 06:40-12:20, 1 06:50-12:10, 2 07:00-11:50, 3 06:30-12:30, 4 07:00-12:00, 5 07:30-12:20
museum: 0 12:30-18:10, 1 12:30-17:30, 2 11:40-16:20, 3 12:40-18:00, 4 12:30-20:30, 5 12:50-18:20, 6 09:40-18:30, 6 22:00-24:00
learning: 0 18:30-23:10, 1 18:30-21:00, 2 18:00-19:20, 3 19:00-22:40
family: 4 20:30-23:30, 5 18:30-23:30
choir: 2 19:30-21:40
"""


def pieces(text: str) -> tuple[Piece, ...]:
    """The pieces that lines such as "museum: 1 14:00-18:00" tell of; days count from Monday."""
    made: list[Piece] = []
    for line in text.strip().splitlines():
        category, _, said = line.partition(":")
        for part in said.split(","):
            day, times, *label = part.split()
            starts, ends = times.split("-")
            made.append(Piece(" ".join(label) or category, category or None, _at(int(day), starts), _at(int(day), ends)))
    return tuple(made)


def week(plan: str, spent: str, loose: tuple[Loose, ...] = ()) -> WeekView:
    """The week of these pieces, each category with what they come to."""
    planned, done = pieces(plan), pieces(spent)
    shown = tuple(
        CategoryShown(name, colour, _minutes(planned, name), _minutes(done, name) + _loose(loose, name), TARGETS.get(name))
        for name, colour in COLOURS.items()
    )
    return WeekView(MONDAY, BRUSSELS, shown, planned, done, loose)


def empty_week() -> WeekView:
    """Nothing planned, nothing noted, no targets."""
    return WeekView(MONDAY, BRUSSELS, tuple(CategoryShown(name, colour) for name, colour in COLOURS.items()))


def usual_week() -> WeekView:
    """Two jobs, a course, the family."""
    return week(USUAL_PLAN, USUAL_SPENT, (Loose("learning", MONDAY + timedelta(days=3), 90), Loose("home", MONDAY + timedelta(days=5), 75)))


def overfull_week() -> WeekView:
    """More than the days hold, with things side by side."""
    loose = [
        Loose(name, MONDAY + timedelta(days=6), minutes)
        for name, minutes in (("home", 95), ("learning", 45), ("family", 150), ("choir", 30))
    ]
    return week(FULL_PLAN, FULL_SPENT, tuple(loose))


def months(weeks: int = 9) -> HoursView:
    """Hours of several weeks, drawn from a fixed seed."""
    random = Random(7)
    usual = {"workshop": 760, "museum": 840, "learning": 200, "family": 420, "home": 60}
    firsts = tuple(MONDAY - timedelta(weeks=number) for number in reversed(range(weeks)))
    rows = [
        CategoryWeeks(name, tuple(max(0, int(random.gauss(minutes, 90)) // 5 * 5) for _ in firsts), TARGETS.get(name))
        for name, minutes in usual.items()
    ]
    return HoursView(firsts, tuple(rows), tuple(COLOURS.items()))


def _at(day: int, clock: str) -> datetime:
    hour, minute = clock.split(":")
    whole = MONDAY + timedelta(days=day + int(hour) // 24)
    return wall(f"{whole} {int(hour) % 24:02d}:{minute}")


def _minutes(pieces: tuple[Piece, ...], name: str) -> int:
    return sum((each.ends - each.starts) // timedelta(minutes=1) for each in pieces if each.category == name)


def _loose(loose: tuple[Loose, ...], name: str) -> int:
    return sum(each.minutes for each in loose if each.category == name)
