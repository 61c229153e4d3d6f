"""What a day leaves free, and what fits into it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from bot.rules.spans import Span, Timed, waking_span, without
from storage.records import Person, Task


@dataclass(frozen=True, slots=True)
class Fit:
    """Tasks that fit, those too long for what is left, and those nobody gave an estimate."""

    fitting: tuple[Task, ...]
    too_long: tuple[Task, ...]
    unestimated: tuple[Task, ...]
    minutes_left: int


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


def what_fits(tasks: Iterable[Task], minutes: int) -> Fit:
    """Takes ``tasks`` in their order, each whose estimate still fits into what is left of ``minutes``."""
    fitting: list[Task] = []
    too_long: list[Task] = []
    unestimated: list[Task] = []
    for task in tasks:
        if task.estimate_minutes is None:
            unestimated.append(task)
        elif task.estimate_minutes <= minutes:
            minutes -= task.estimate_minutes
            fitting.append(task)
        else:
            too_long.append(task)
    return Fit(tuple(fitting), tuple(too_long), tuple(unestimated), minutes)
