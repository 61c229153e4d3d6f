"""Short ways to make the records that these tests speak in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from storage.records import Commitment, Goal, Horizon, Occurrence, Person, Stint, Task

BRUSSELS = "Europe/Brussels"
MONDAY = date(2026, 3, 2)
PERSON = Person(id=1, address="terminal:me", zone=BRUSSELS, joined=datetime(2026, 1, 1, tzinfo=UTC))


def utc(text: str) -> datetime:
    """The UTC instant of ``2026-03-02 06:00``."""
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def wall(text: str, zone: str = BRUSSELS) -> datetime:
    """The UTC instant at which the clocks of ``zone`` show ``2026-03-02 06:00``."""
    return datetime.fromisoformat(text).replace(tzinfo=ZoneInfo(zone)).astimezone(UTC)


def commitment(start: str, end: str, *, id: int = 1, zone: str = BRUSSELS, rule: str | None = None, major: bool = True) -> Commitment:
    """A commitment between two local times."""
    return Commitment(id, f"Commitment {id}", wall(start, zone), wall(end, zone), zone, rule=rule, major=major)


def occurrence(start: str, end: str, *, id: int = 1, category_id: int | None = None, major: bool = True) -> Occurrence:
    """One occurrence between two local times in Brussels."""
    starts, ends = wall(start), wall(end)
    made = Commitment(id, f"Commitment {id}", starts, ends, BRUSSELS, category_id=category_id, major=major)
    return Occurrence(made, date.fromisoformat(start[:10]), starts, ends)


def stint(category_id: int, day: date, minutes: int, start: str | None = None) -> Stint:
    """Hours spent, from ``start`` on if it is given."""
    starts = wall(start) if start else None
    return Stint(0, category_id, day, minutes, starts, starts + timedelta(minutes=minutes) if starts else None)


def minutes_by_day(work: Iterable[Stint]) -> Counter[date]:
    """The minutes of all these stints together, by their days."""
    minutes: Counter[date] = Counter()
    for each in work:
        minutes[each.day] += each.minutes
    return minutes


def task(title: str, estimate_minutes: int | None = None, category_id: int | None = None) -> Task:
    """An open task of Monday."""
    return Task(0, title, MONDAY, 1, category_id=category_id, estimate_minutes=estimate_minutes)


def goal(id: int, horizon: Horizon = Horizon.WEEK, period: date = MONDAY) -> Goal:
    """An open goal."""
    return Goal(id, f"Goal {id}", horizon, period, "personal")
