"""Pieces of time placed on a day: from when to when on its clocks, and beside which others."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Final

from bot.pictures.views import Piece
from bot.rules.local_time import ONE_DAY, elapsed_minutes, local

MINUTES_A_DAY: Final = 24 * 60
SMALL_HOURS: Final = 5 * 60
"""What goes on past midnight and ends by then belongs to the evening that it began on; a later end is a night of two days."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece on one day, in minutes the clocks show after midnight, past 24 hours for the next one's; ``lane`` counts from 0."""

    piece: Piece
    starts: int
    ends: int
    lane: int


def placed_on(day: date, pieces: Iterable[Piece], zone: str) -> tuple[Placed, ...]:
    """What of ``pieces`` is on ``day``, in order, each in the first lane that is free then."""
    placed: list[Placed] = []
    free_from: list[int] = []
    for piece in sorted(pieces, key=lambda each: (each.starts, each.ends)):
        minutes = _on_day(day, piece, zone)
        if minutes is None:
            continue
        starts, ends = minutes
        lane = next((lane for lane, free in enumerate(free_from) if free <= starts), len(free_from))
        free_from[lane : lane + 1] = [ends]
        placed.append(Placed(piece, starts, ends, lane))
    return tuple(placed)


def lanes_of(placed: Iterable[Placed]) -> int:
    """How many lanes they take, at least one."""
    return max((each.lane for each in placed), default=0) + 1


def hours_shown(placed: Iterable[Placed], waking_start: time, waking_end: time) -> tuple[int, int]:
    """The first and the last full hour that hold the waking window and everything placed."""
    known = tuple(placed)
    ends_at = _minute(waking_end) if waking_end > waking_start else MINUTES_A_DAY
    first = min([_minute(waking_start), *(each.starts for each in known)]) // 60
    last = -(-max([ends_at, *(each.ends for each in known)]) // 60)
    return first, last


def _on_day(day: date, piece: Piece, zone: str) -> tuple[int, int] | None:
    starts, ends = local(piece.starts, zone), local(piece.ends, zone)
    if starts.date() > day or ends.date() < day:
        return None
    if ends.date() - starts.date() == ONE_DAY and _minute(ends.time()) <= SMALL_HOURS:
        return (_minute(starts.time()), MINUTES_A_DAY + _minute(ends.time())) if starts.date() == day else None
    first = _minute(starts.time()) if starts.date() == day else 0
    last = _minute(ends.time()) if ends.date() == day else MINUTES_A_DAY
    if starts.date() == ends.date():
        # In an hour that the clocks repeat, an end may show an earlier time than its start.
        last = min(MINUTES_A_DAY, max(last, first + elapsed_minutes(piece.starts, piece.ends))) if last <= first else last
    return (first, last) if last > first else None


def _minute(at: time | datetime) -> int:
    return at.hour * 60 + at.minute
