"""Planned hours that nobody has logged yet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Sequence
from datetime import date, datetime
from typing import TypeAlias, TypeVar

from bot.rules.local_time import elapsed_minutes
from bot.rules.planned import Planned, purpose_of
from bot.rules.spans import Span, overlap
from storage.records import Stint

P = TypeVar("P", bound=Planned)
Lot: TypeAlias = tuple[date, int, int | None]
"""A day, a category, and the task that minutes without times were told for, where it is planned on that day."""


def unlogged(planned: Iterable[P], stints: Sequence[Stint], until: datetime) -> tuple[P, ...]:
    """The planned hours with a category, over by ``until``, that no stint of that category tells of; earliest first.

    A stint with times tells of what it shares time with, and one without them
    that has a title for a note of what is called so, of whatever category. The minutes of the other
    stints without times tell of the day's other planned hours in their order:
    any minutes count for the first, and what one leaves over counts for the
    next if it is at least half of it. Those spent on a task that is planned
    then count for its hours alone. Source: common practice, no source.
    """
    earliest_first = sorted(planned, key=lambda one: (one.starts, one.ends))
    titles = {(each.day, each.title.lower()): each.category_id for each in earliest_first}
    named: set[tuple[object, str]] = set()
    tasks = {(each.day, id) for each in earliest_first for id in purpose_of(each)[1]}
    untimed: Counter[Lot] = Counter()
    for stint in stints:
        of_title = (stint.day, (stint.note or "").lower())
        if of_title in titles:
            named.add(of_title)
        if titles.get(of_title) != stint.category_id and (stint.starts is None or stint.ends is None):
            untimed[_lot(stint.day, stint.category_id, stint.task_ids, tasks)] += stint.minutes
    left, told = dict(untimed), {(day, task) for day, _, task in untimed}
    silent: list[P] = []
    for each in earliest_first:
        if each.category_id is None or each.ends > until or _told_by_times(each, each.category_id, stints):
            continue
        if (each.day, each.title.lower()) in named:
            continue
        key = _lot(each.day, each.category_id, purpose_of(each)[1], told)
        length = elapsed_minutes(each.starts, each.ends)
        minutes = left.get(key, 0)
        if minutes > 0 and (minutes == untimed[key] or 2 * minutes >= length):
            left[key] = max(0, minutes - length)
        else:
            silent.append(each)
    return tuple(silent)


def _lot(day: date, category_id: int, task_ids: Iterable[int], tasks: Container[tuple[date, int | None]]) -> Lot:
    return day, category_id, next((id for id in task_ids if (day, id) in tasks), None)


def _told_by_times(planned: Planned, category_id: int, stints: Iterable[Stint]) -> bool:
    return any(
        overlap(planned, Span(stint.starts, stint.ends))
        for stint in stints
        if stint.category_id == category_id and stint.starts is not None and stint.ends is not None
    )
