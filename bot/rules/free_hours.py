"""What a day leaves free."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime

from bot.rules.spans import Span, Timed, waking_span, without
from storage.records import Person


def free_spans(person: Person, day: date, busy: Iterable[Timed], since: datetime | None = None) -> tuple[Span, ...]:
    """The free stretches of the person's waking window on ``day``, less ``busy``, from ``since`` on if it is given.

    ``busy`` should hold what runs in from the day before too: see
    ``occurrences.touching``.
    """
    window = waking_span(day, person.waking_start, person.waking_end, person.zone)
    if since is not None:
        window = Span(max(window.starts, min(since, window.ends)), window.ends)
    return without(window, busy)


def free_minutes(spans: Iterable[Span]) -> int:
    """The minutes that ``spans`` hold together."""
    return sum(span.minutes for span in spans)


def minutes_to_fill(free: int, free_share: int) -> int:
    """How many of ``free`` minutes may be filled when ``free_share`` percent stay free, rounded down.

    Source: common practice, no source.
    """
    return free * (100 - free_share) // 100
