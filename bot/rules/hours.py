"""Hours planned and hours spent."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum

from bot.rules.local_time import day_bounds, elapsed_minutes, local
from bot.rules.planned import Planned
from bot.rules.spans import Span, Timed, merged, shared
from storage.records import Occurrence, Stint, Task, TaskState


class Use(StrEnum):
    """What an hour of the day was for."""

    FREE = "free"
    PLANNED = "planned"
    SPENT = "spent"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class Hour:
    """One hour on the person's clocks; shorter than 60 minutes beside some clock changes."""

    span: Span
    planned_minutes: int
    spent_minutes: int

    @property
    def use(self) -> Use:
        """Planned, spent, both or free."""
        if self.planned_minutes and self.spent_minutes:
            return Use.BOTH
        if self.planned_minutes:
            return Use.PLANNED
        return Use.SPENT if self.spent_minutes else Use.FREE


def spent_by_category(stints: Iterable[Stint]) -> Mapping[int, int]:
    """Net minutes spent, by category id."""
    minutes: Counter[int] = Counter()
    for stint in stints:
        minutes[stint.category_id] += stint.minutes
    return dict(minutes)


def added(sums: Iterable[Mapping[int, int]]) -> Mapping[int, int]:
    """Minutes by category id of several spans together."""
    minutes: Counter[int] = Counter()
    for each in sums:
        minutes.update(each)
    return dict(minutes)


def planned_by_category(planned: Iterable[Planned], tasks: Iterable[Task] = ()) -> Mapping[int, int]:
    """Minutes planned, by category id: commitments and blocks by their length, tasks by their estimate unless they were dropped.

    What has no category, and a task without an estimate, counts nothing.
    """
    minutes: Counter[int] = Counter()
    for each in planned:
        if each.category_id is not None:
            minutes[each.category_id] += elapsed_minutes(each.starts, each.ends)
    for task in tasks:
        if task.category_id is not None and task.estimate_minutes is not None and task.state is not TaskState.DROPPED:
            minutes[task.category_id] += task.estimate_minutes
    return dict(minutes)


def hours_of_day(day: date, zone: str, occurrences: Iterable[Occurrence], stints: Iterable[Stint]) -> tuple[Hour, ...]:
    """Each hour of ``day`` on the clocks of ``zone``, with the minutes of it that were planned and that were spent.

    A minute planned twice counts once. A stint without times fills no hour,
    because nobody said which.
    """
    planned = merged(occurrences)
    spent = merged(Span(each.starts, each.ends) for each in stints if each.starts is not None and each.ends is not None)
    return tuple(Hour(span, _minutes_in(span, planned), _minutes_in(span, spent)) for span in clock_hours(day, zone))


def clock_hours(day: date, zone: str) -> tuple[Span, ...]:
    """The hours of ``day`` in ``zone``, each cut where the clocks show a full hour or are changed."""
    starts, end = day_bounds(day, zone)
    hours: list[Span] = []
    while starts < end:
        ends = min(_next_full_hour(starts, zone), end)
        hours.append(Span(starts, ends))
        starts = ends
    return tuple(hours)


def _next_full_hour(instant: datetime, zone: str) -> datetime:
    shown = local(instant, zone)
    return instant + timedelta(hours=1) - timedelta(minutes=shown.minute, seconds=shown.second)


def _minutes_in(hour: Span, taken: Iterable[Timed]) -> int:
    return sum(part.minutes for each in taken if (part := shared(hour, each)) is not None)
