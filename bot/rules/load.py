"""How much a day holds, and where there is room."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time
from itertools import combinations
from typing import Final

from bot.rules.local_time import ONE_DAY
from bot.rules.parts import part_of_occurrence, parts_touched
from bot.rules.spans import overlap, waking_span
from storage.records import Occurrence

MOST_MAJORS: Final = 3


@dataclass(frozen=True, slots=True)
class Load:
    """How many commitments start on a day, and how many of them are major."""

    day: date
    majors: int
    commitments: int

    @property
    def too_much(self) -> bool:
        """Whether there are more than three major ones. Source: common practice, no source."""
        return self.majors > MOST_MAJORS


def load_of(day: date, occurrences: Iterable[Occurrence]) -> Load:
    """The load of ``day`` from the occurrences that start on it; others are passed over."""
    of_day = [each for each in occurrences if each.day == day]
    return Load(day, sum(each.commitment.major for each in of_day), len(of_day))


def lighter_days(moving: Occurrence, occurrences: Iterable[Occurrence], days: Iterable[date], zone: str) -> tuple[date, ...]:
    """The ``days`` that ``moving`` could go to: its part of day is free there and one more major is not too much.

    Fewest commitments first, then earliest. ``days`` are usually what is left
    of the week; the occurrences must cover them.
    """
    known = tuple(occurrences)
    part = part_of_occurrence(moving, zone)
    open_days = [
        day
        for day in days
        if day != moving.day
        and load_of(day, known).majors < MOST_MAJORS
        and not any(each.day == day and part in parts_touched(each, zone) for each in known)
    ]
    return tuple(sorted(open_days, key=lambda day: (load_of(day, known).commitments, day)))


def outside_waking(occurrence: Occurrence, waking_start: time, waking_end: time, zone: str) -> bool:
    """Whether ``occurrence`` lies in no waking window: not in its day's, nor in the one of the day before, which may end after midnight."""
    windows = (waking_span(day, waking_start, waking_end, zone) for day in (occurrence.day - ONE_DAY, occurrence.day))
    return not any(window.starts <= occurrence.starts and occurrence.ends <= window.ends for window in windows)


def clashing(occurrence: Occurrence, others: Iterable[Occurrence]) -> tuple[Occurrence, ...]:
    """Those of ``others`` that share time with ``occurrence``; itself is passed over."""
    return tuple(each for each in others if each != occurrence and overlap(each, occurrence))


def clashes(occurrences: Iterable[Occurrence]) -> tuple[tuple[Occurrence, Occurrence], ...]:
    """Every pair that shares time, the earlier first."""
    ordered = sorted(occurrences, key=lambda each: (each.starts, each.ends, each.commitment.id))
    return tuple((one, other) for one, other in combinations(ordered, 2) if overlap(one, other))
