"""Where and when a life begins, and what its fate may be, drawn from the seed."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime, time
from random import Random

from bot.settings import Settings, sample_settings
from tests.simulation.fate import EVERY_KIND, Step, Trouble

# Each starts about a day before its clock change, where there is one. Instants: tz database 2026f.
PLACES: tuple[tuple[str, datetime, datetime | None], ...] = (
    ("Europe/Brussels", datetime(2026, 10, 24, 8, tzinfo=UTC), datetime(2026, 10, 25, 1, tzinfo=UTC)),
    ("Europe/Brussels", datetime(2026, 3, 28, 8, tzinfo=UTC), datetime(2026, 3, 29, 1, tzinfo=UTC)),
    ("Europe/Brussels", datetime(2026, 6, 5, 8, tzinfo=UTC), None),
    ("America/New_York", datetime(2026, 10, 31, 8, tzinfo=UTC), datetime(2026, 11, 1, 6, tzinfo=UTC)),
    ("Australia/Lord_Howe", datetime(2026, 4, 3, 20, tzinfo=UTC), datetime(2026, 4, 4, 15, tzinfo=UTC)),
    ("Africa/Cairo", datetime(2026, 4, 23, 0, tzinfo=UTC), datetime(2026, 4, 23, 22, tzinfo=UTC)),
    ("America/Havana", datetime(2026, 3, 7, 6, tzinfo=UTC), datetime(2026, 3, 8, 5, tzinfo=UTC)),
)
MORNINGS = (time(6), time(6), time(7, 30), time(2, 30), time(0, 15), time(1, 45))


def rates(draw: Random) -> dict[Step, float]:
    """How likely each kind of step is to go wrong in this life: mostly seldom, sometimes often."""
    often = draw.choice((0.2, 0.05, 0.0))
    return {
        "begin": 0.01,
        "commit": 0.02,
        "committed": 0.02,
        "read": 0.002,
        "poll": 0.05,
        "send": often,
        "courtesy": 0.05,
        "forecast": 0.2,
        "tick": 0.01,
    }


def planned(draw: Random) -> dict[tuple[Step, int], Trouble]:
    """Every trouble of every kind of step, each at an early occurrence of its own."""
    wanted: dict[tuple[Step, int], Trouble] = {}
    last: Counter[Step] = Counter()
    for step, trouble in draw.sample(EVERY_KIND, len(EVERY_KIND)):
        last[step] += draw.randint(1, 2)
        wanted[step, last[step]] = trouble
    return wanted


def settings_of(zone: str, morning: time) -> Settings:
    sample = sample_settings()
    return replace(sample, person=replace(sample.person, zone=zone), messages=replace(sample.messages, morning=morning))
