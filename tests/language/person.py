"""The person of these tests: in Brussels, on Tuesday 3 March 2026 at noon, with three tasks open.

      March 2026
mo tu we th fr sa su
                   1
 2 [3] 4  5  6  7  8
 9 10 11 12 13 14 15
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time
from zoneinfo import ZoneInfo

from bot.language.context import Context, Named, Planned

CATEGORIES = (
    Named("workshop", ("bike", "shop"), "work", is_job=True),
    Named("museum", ("desk", "front desk"), "work", is_job=True),
    Named("learning", ("course", "reading"), "personal"),
    Named("family", ("friends", "kids"), "personal"),
    Named("home", ("house", "garden"), "personal"),
)
TASKS = ((1, "call the glazier"), (2, "order spokes"), (3, "true the wheels"))


def at(local: str = "2026-03-03T12:00", zone: str = "Europe/Brussels") -> Context:
    """What is known of the person at a local time."""
    return Context(datetime.fromisoformat(local).replace(tzinfo=ZoneInfo(zone)), CATEGORIES, tasks=TASKS)


def clocked_in(category: str = "workshop") -> Context:
    """The person with the clock running since nine."""
    return replace(at(), clocked_in=category, clocked_since=time(9))


def planning(*blocks: tuple[str, str, str]) -> Context:
    """The person with blocks planned today, as (category, start, end)."""
    planned = tuple(Planned(category, time.fromisoformat(start), time.fromisoformat(end)) for category, start, end in blocks)
    return replace(at(), planned=planned)
