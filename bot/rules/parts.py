"""The parts of a day."""

from __future__ import annotations

from datetime import time
from enum import StrEnum
from typing import Final

from bot.rules.local_time import local
from storage.records import Occurrence

AFTERNOON_FROM: Final = time(12)
EVENING_FROM: Final = time(17)


class Part(StrEnum):
    """A part of the day, in the words people say."""

    MORNING = "morning"
    AFTERNOON = "afternoon"
    EVENING = "evening"


def part_of(at: time) -> Part:
    """The part of day that the local time ``at`` is in: morning until 12:00, afternoon until 17:00, then evening.

    Source: common practice, no source.
    """
    if at < AFTERNOON_FROM:
        return Part.MORNING
    return Part.AFTERNOON if at < EVENING_FROM else Part.EVENING


def part_of_occurrence(occurrence: Occurrence, zone: str) -> Part:
    """The part of day in which ``occurrence`` starts, on the clocks of ``zone``."""
    return part_of(local(occurrence.starts, zone).time())


def parts_touched(occurrence: Occurrence, zone: str) -> frozenset[Part]:
    """Every part of the occurrence's own day that it takes something of, on the clocks of ``zone``."""
    starts, ends = local(occurrence.starts, zone), local(occurrence.ends, zone)
    first = part_of(starts.time())
    if ends.date() > starts.date():
        return frozenset(part for part in Part if _begins(part) >= _begins(first))
    return frozenset(part for part in Part if part is first or starts.time() < _begins(part) < ends.time())


def _begins(part: Part) -> time:
    return {Part.MORNING: time.min, Part.AFTERNOON: AFTERNOON_FROM, Part.EVENING: EVENING_FROM}[part]
