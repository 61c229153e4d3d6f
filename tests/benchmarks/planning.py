"""The planner beside OR-tools CP-SAT: equal objectives, and how long each takes.

    python -m tests.benchmarks.planning [days] [weeks]

Prints figures, and ends with an error if any objective differs. Times are of
the processor, so that whatever else runs on the machine changes little.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from random import Random
from statistics import median
from time import process_time
from typing import Generic, TypeVar

from bot.rules.planning.asked import OpenDay
from bot.rules.planning.day import plan_day
from bot.rules.planning.week import plan_week
from bot.rules.planning.week_asked import OpenWeek
from tests.outside_checks.made_weeks import crowded_day, crowded_week, random_day, random_week
from tests.outside_checks.solver_models import best_day, best_week
from tests.rules.naive_days import naive

T = TypeVar("T")
SEED = 20260302


@dataclass
class Race(Generic[T]):
    """Two ways to the same objective, and what each took, in seconds of the processor."""

    name: str
    ours: Callable[[T], object]
    theirs: Callable[[T], object]

    def run(self, asked: list[T]) -> int:
        """Runs both on everything, prints the figures, and gives how many objectives differed."""
        rows = [(*_timed(self.ours, each), *_timed(self.theirs, each)) for each in asked]
        different = sum(ours != theirs for ours, _, theirs, _ in rows)
        own, other = [row[1] for row in rows], [row[3] for row in rows]
        print(f"{len(rows)} {self.name}: {different} objectives differ")  # noqa: T201
        print(f"  planner: median {median(own) * 1000:.2f} ms, slowest {max(own) * 1000:.1f} ms")  # noqa: T201
        print(f"  CP-SAT:  median {median(other) * 1000:.2f} ms, slowest {max(other) * 1000:.1f} ms")  # noqa: T201
        print(f"  ratio of the medians {median(other) / median(own):.0f}, of the slowest {max(other) / max(own):.0f}")  # noqa: T201
        return different


def _timed(act: Callable[[T], object], asked: T) -> tuple[object, float]:
    began = process_time()
    return act(asked), process_time() - began


def main(days: int = 1000, weeks: int = 100) -> int:
    """The races, and the same with a twentieth as many crowded days and a fifth as many crowded weeks; 1 if any objective differed."""
    random = Random(SEED)
    of_days: Race[OpenDay] = Race("days", lambda day: plan_day(day).objective.rank, lambda day: best_day(naive(day)))
    of_weeks: Race[OpenWeek] = Race("weeks", lambda week: plan_week(week).objective.rank, best_week)
    different = of_days.run([random_day(random) for _ in range(days)]) + of_weeks.run([random_week(random) for _ in range(weeks)])
    of_crowded: Race[OpenDay] = Race("days with twenty tasks", of_days.ours, of_days.theirs)
    of_crowded_weeks: Race[OpenWeek] = Race("weeks with eighteen goals", of_weeks.ours, of_weeks.theirs)
    crowded = [crowded_day(random) for _ in range(days // 20)], [crowded_week(random) for _ in range(weeks // 5)]
    different += of_crowded.run(crowded[0]) + of_crowded_weeks.run(crowded[1])
    return int(different > 0)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
