"""Stretches of time between two UTC instants."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Protocol

from bot.rules.local_time import ONE_DAY, elapsed_minutes, first_instant_from


class Timed(Protocol):
    """Anything with a start and an end, UTC instants."""

    @property
    def starts(self) -> datetime:
        """The UTC instant it starts at."""

    @property
    def ends(self) -> datetime:
        """The UTC instant it has ended at; not part of it."""


@dataclass(frozen=True, slots=True)
class Span:
    """From ``starts`` up to but not including ``ends``, UTC instants."""

    starts: datetime
    ends: datetime

    @property
    def minutes(self) -> int:
        """Its length in whole minutes."""
        return elapsed_minutes(self.starts, self.ends)


def overlap(one: Timed, other: Timed) -> bool:
    """Whether the two share any time; touching ends share none, and what has no length shares none."""
    return max(one.starts, other.starts) < min(one.ends, other.ends)


def shared(one: Timed, other: Timed) -> Span | None:
    """The time the two share, or None."""
    if not overlap(one, other):
        return None
    return Span(max(one.starts, other.starts), min(one.ends, other.ends))


def merged(spans: Iterable[Timed]) -> tuple[Span, ...]:
    """The same time with nothing twice: in order, apart from each other, without empty ones."""
    joined: list[Span] = []
    for span in sorted(spans, key=lambda each: each.starts):
        if span.starts >= span.ends:
            continue
        if joined and span.starts <= joined[-1].ends:
            joined[-1] = Span(joined[-1].starts, max(joined[-1].ends, span.ends))
        else:
            joined.append(Span(span.starts, span.ends))
    return tuple(joined)


def without(whole: Span, taken: Iterable[Timed]) -> tuple[Span, ...]:
    """What is left of ``whole`` once ``taken`` is taken out, in order."""
    left: list[Span] = []
    starts = whole.starts
    for span in merged(taken):
        if starts < min(span.starts, whole.ends):
            left.append(Span(starts, min(span.starts, whole.ends)))
        starts = max(starts, span.ends)
    if starts < whole.ends:
        left.append(Span(starts, whole.ends))
    return tuple(left)


def waking_span(day: date, waking_start: time, waking_end: time, zone: str) -> Span:
    """The waking window of ``day`` in ``zone``. One that ends no later than it starts ends on the day after."""
    last = day if waking_end > waking_start else day + ONE_DAY
    return Span(first_instant_from(day, waking_start, zone), first_instant_from(last, waking_end, zone))
