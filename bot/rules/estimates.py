"""How much longer a person takes than they think: their own ratio of spent to estimated minutes.

The idea of setting a plan beside one's own past: Buehler, Griffin and Ross,
"Exploring the planning fallacy", Journal of Personality and Social
Psychology 67(3), 1994, pages 366-381. The constants are common practice, no
source.
"""

from __future__ import annotations

from bisect import insort
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import median
from typing import Final

from storage.records import Task, TaskState, Work

ENOUGH: Final = 8
"""From so many tasks on, the median counts in full."""

MOST_CHANGE: Final = 0.1
"""No single task, however far out, changes the ratio by more than this share of it."""

AS_ESTIMATED: Final = 1.0


@dataclass(frozen=True, slots=True)
class Done:
    """A task that was estimated and done, in minutes."""

    estimated: int
    spent: int

    @property
    def ratio(self) -> float:
        """How many times the estimate it took."""
        return self.spent / self.estimated


def learned_ratio(done: Iterable[Done]) -> float:
    """How many times their estimate the person usually needs, from the tasks of one category in the order they were done.

    Start with 1. After the n-th task, look for 1 + (m - 1) * min(n, 8) / 8,
    where m is the median of the n ratios of spent to estimated, and go there,
    but change the ratio by no more than a tenth of it. So it stays near 1
    while there are few tasks, and no outlier moves it by more than a tenth.
    Tasks with nothing estimated or nothing spent are passed over.
    """
    ratios: list[float] = []
    learned = AS_ESTIMATED
    for each in done:
        if each.estimated > 0 and each.spent > 0:
            insort(ratios, each.ratio)
            learned = _towards(_shrunk(ratios), learned)
    return learned


def with_ratio(estimate_minutes: int, ratio: float) -> int:
    """The minutes to plan for an estimate, to the nearest minute and at least one."""
    return max(1, round(estimate_minutes * ratio))


def done_by_category(tasks: Iterable[Task], work: Iterable[Work]) -> Mapping[int, tuple[Done, ...]]:
    """The closed tasks that were estimated, and what was spent on them, by category id; in order of day and number.

    A task that shares a stint with another is left out, because nobody said
    which of them took how long.
    """
    spent: Counter[int] = Counter()
    shared: set[int] = set()
    for each in work:
        if len(each.task_ids) > 1:
            shared.update(each.task_ids)
        for task_id in each.task_ids:
            spent[task_id] += each.minutes
    told = [task for task in tasks if task.id in spent and task.id not in shared]
    done: defaultdict[int, list[Done]] = defaultdict(list)
    for task in sorted(told, key=lambda task: (task.day, task.number)):
        if task.category_id is not None and task.state is TaskState.CLOSED and task.estimate_minutes:
            done[task.category_id].append(Done(task.estimate_minutes, spent[task.id]))
    return {category_id: tuple(of) for category_id, of in done.items()}


def done_of(tasks: Iterable[Task], work: Iterable[Work], category_id: int) -> tuple[Done, ...]:
    """Those of one category."""
    return done_by_category(tasks, work).get(category_id, ())


def _shrunk(ratios: Sequence[float]) -> float:
    return AS_ESTIMATED + (median(ratios) - AS_ESTIMATED) * min(len(ratios), ENOUGH) / ENOUGH


def _towards(wanted: float, learned: float) -> float:
    return min(max(wanted, learned * (1 - MOST_CHANGE)), learned * (1 + MOST_CHANGE))
