"""What is worth saying of a week: at most three things, each by a rule of its own. Source of all: common practice, no source.

In this order, each kind once:

1. a category has more than its target wants at most: the one furthest over;
2. a category stays below what its target wants at least for the third week in a row: the one that is so for longest;
3. a goal has been carried three times or more and is open: the one carried most;
4. all hours together are fewer than usual by more than a quarter;
5. what estimates of a category are multiplied by has moved by a tenth or more: the one that moved most;
6. one day holds more hours than any other, of at least three days with hours.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import islice, takewhile
from typing import Final, TypeAlias, Union

from storage.records import Goal

MOST: Final = 3
WEEKS_SHORT: Final = 3
TIMES_CARRIED: Final = 3
FEWER_PERCENT: Final = 25
MOVED: Final = 0.1
DAYS_WITH_HOURS: Final = 3


@dataclass(frozen=True, slots=True)
class OverMost:
    """``minutes`` more than wanted at most."""

    category: str
    minutes: int


@dataclass(frozen=True, slots=True)
class BelowLeast:
    """For so many ``weeks`` in a row, this one included."""

    category: str
    weeks: int


@dataclass(frozen=True, slots=True)
class CarriedOften:
    title: str
    times: int


@dataclass(frozen=True, slots=True)
class FewerThanUsual:
    """``minutes`` in all, where ``usual`` are."""

    minutes: int
    usual: int


@dataclass(frozen=True, slots=True)
class EstimatesMoved:
    """Tasks of the category take ``now`` times their estimate, ``before`` it was so many."""

    category: str
    before: float
    now: float


@dataclass(frozen=True, slots=True)
class FullestDay:
    day: date
    minutes: int


Observation: TypeAlias = Union[OverMost, BelowLeast, CarriedOften, FewerThanUsual, EstimatesMoved, FullestDay]


@dataclass(frozen=True, slots=True)
class CategoryWeeks:
    """A category's minutes of this week and of those before, the latest first, each with what was wanted at least then."""

    category: str
    weeks: tuple[tuple[int, int | None], ...]
    at_most: int | None = None

    @property
    def over(self) -> int:
        """Minutes of this week beyond what is wanted at most, 0 or less where there are none."""
        return self.weeks[0][0] - self.at_most if self.at_most is not None else 0

    @property
    def weeks_short(self) -> int:
        """For how many weeks in a row, this one included, it has been below what is wanted at least."""
        return len(list(takewhile(lambda week: week[1] is not None and week[0] < week[1], self.weeks)))


@dataclass(frozen=True, slots=True)
class WeekFacts:
    """What the rules look at. ``usual`` are minutes in all, None where no earlier week counts; ``ratios`` before and now, by category."""

    categories: tuple[CategoryWeeks, ...]
    by_day: Mapping[date, int]
    open_goals: tuple[Goal, ...] = ()
    usual: int | None = None
    ratios: tuple[tuple[str, float, float], ...] = ()


def observations(facts: WeekFacts) -> tuple[Observation, ...]:
    """The first three that the rules give, in their order."""
    return tuple(islice(_found(facts), MOST))


def _found(facts: WeekFacts) -> Iterator[Observation]:
    yield from _over_most(facts.categories)
    yield from _below_least(facts.categories)
    yield from _carried_often(facts.open_goals)
    yield from _fewer_than_usual(facts)
    yield from _estimates_moved(facts.ratios)
    yield from _fullest_day(facts.by_day)


def _over_most(categories: Iterable[CategoryWeeks]) -> Iterator[Observation]:
    furthest = max(categories, key=lambda each: each.over, default=None)
    if furthest is not None and furthest.over > 0:
        yield OverMost(furthest.category, furthest.over)


def _below_least(categories: Iterable[CategoryWeeks]) -> Iterator[Observation]:
    longest = max(categories, key=lambda each: each.weeks_short, default=None)
    if longest is not None and longest.weeks_short >= WEEKS_SHORT:
        yield BelowLeast(longest.category, longest.weeks_short)


def _carried_often(goals: Iterable[Goal]) -> Iterator[Observation]:
    most = max(goals, key=lambda goal: goal.carried, default=None)
    if most is not None and most.carried >= TIMES_CARRIED:
        yield CarriedOften(most.title, most.carried)


def _fewer_than_usual(facts: WeekFacts) -> Iterator[Observation]:
    minutes = sum(facts.by_day.values())
    if facts.usual is not None and 100 * minutes < (100 - FEWER_PERCENT) * facts.usual:
        yield FewerThanUsual(minutes, facts.usual)


def _estimates_moved(ratios: Iterable[tuple[str, float, float]]) -> Iterator[Observation]:
    moved = [each for each in ratios if abs(each[2] - each[1]) >= MOVED]
    if moved:
        yield EstimatesMoved(*max(moved, key=lambda each: abs(each[2] - each[1])))


def _fullest_day(by_day: Mapping[date, int]) -> Iterator[Observation]:
    days = sorted((each for each in by_day.items() if each[1] > 0), key=lambda each: -each[1])
    if len(days) >= DAYS_WITH_HOURS and days[0][1] > days[1][1]:
        yield FullestDay(*days[0])
