"""Which daily copies stay. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Rotation:
    """How many of the latest days are kept, and of how many of the latest weeks the newest day. With ``daily`` 0, no copies are made."""

    daily: int
    weekly: int


def staying(days: Iterable[date], today: date, rotation: Rotation) -> frozenset[date]:
    """Those of ``days`` that stay. One that is still to come stays: a clock was wrong when it was made or is wrong now.

    Weeks are those of ISO 8601. Common practice, no source.
    """
    known = sorted(set(days), reverse=True)
    past = [day for day in known if day <= today]
    newest_of_week: dict[tuple[int, int], date] = {}
    for day in past:
        newest_of_week.setdefault(day.isocalendar()[:2], day)
    weeks = list(newest_of_week.values())[: rotation.weekly]
    return frozenset((*past[: rotation.daily], *weeks, *(day for day in known if day > today)))
