"""Hours planned and hours spent."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from bot.rules.local_time import elapsed_minutes
from bot.rules.planned import Planned
from storage.records import Stint, Task, TaskState


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
