"""Random days and weeks of the kind a person has, from a seeded generator."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from random import Random

from bot.rules.planning.asked import Fixed, OpenDay, Sky, Sort, Wanted
from bot.rules.planning.week_asked import DayRoom, OpenWeek, WeekGoal, WeekTarget
from bot.rules.planning.worth import ROUTINE, task_value
from bot.rules.spans import Span

SUNRISE = datetime(2026, 3, 2, 5, tzinfo=UTC)
MONDAY = date(2026, 3, 2)


def random_day(random: Random) -> OpenDay:
    """A waking day with up to five commitments, up to three routines and two to nine tasks."""
    hours = random.choice([12, 15, 15, 15, 16])
    return OpenDay(
        window=_span(0, 60 * hours),
        fixed=tuple(_commitment(random, hours) for _ in range(random.randint(1, 5))),
        wanted=(
            *(_routine(random, number, hours) for number in range(random.randint(0, 3))),
            *(_task(random, number, hours) for number in range(random.randint(2, 9))),
        ),
        skies=tuple(_sky(random, hour) for hour in range(random.choice([0, hours, hours]))),
        free_share=random.choice([0, 10, 20, 20, 20, 20, 30]),
    )


def crowded_day(random: Random) -> OpenDay:
    """A day with nearly nothing fixed and twenty tasks, a fifth of them outdoors beside scattered rain."""
    return OpenDay(
        window=_span(0, 60 * 15),
        fixed=tuple(_commitment(random, 15) for _ in range(random.randint(0, 2))),
        wanted=tuple(_task(random, number, 15) for number in range(20)),
        skies=tuple(_sky(random, hour) for hour in range(15)),
    )


def _span(start: int, minutes: int) -> Span:
    return Span(SUNRISE + timedelta(minutes=start), SUNRISE + timedelta(minutes=start + minutes))


def _commitment(random: Random, hours: int) -> Fixed:
    start, minutes = random.randrange(0, 60 * hours, 5), random.choice([30, 45, 50, 60, 90, 120, 180, 240])
    return Fixed(_span(start, minutes), random.choice([0, 0, 15, 20]), random.choice([0, 0, 15, 20]))


def _routine(random: Random, number: int, hours: int) -> Wanted:
    window = _span(random.randrange(0, 60 * hours - 120, 30), random.choice([90, 120, 180, 240]))
    return Wanted(f"routine {number}", random.choice([15, 20, 30, 45, 60]), ROUTINE, Sort.ROUTINE, window)


def _task(random: Random, number: int, hours: int) -> Wanted:
    minutes = random.choice([10, 15, 30, 30, 45, 60, 60, 90, 90, 120, 180])
    value = task_value(pressing=random.random() < 0.3, pushes=random.choice([0, 0, 1, 2]), behind_target=random.random() < 0.3)
    windowed = random.random() < 0.1
    return Wanted(
        f"task {number}",
        minutes,
        value,
        window=_span(random.randrange(0, 60 * hours - 240, 30), 240) if windowed else None,
        smallest_minutes=random.choice([30, 45, 60]) if random.random() < 0.4 else None,
        outdoors=random.random() < 0.2,
    )


def _sky(random: Random, hour: int) -> Sky:
    chance = random.choice([0, 0, 10, 20, 30, 45, 60, 80])
    return Sky(_span(60 * hour, 60), chance, chance < 50)


def random_week(random: Random) -> OpenWeek:
    """Seven days with room, three to ten goals in four categories, targets in some of them."""
    return OpenWeek(
        days=tuple(DayRoom(MONDAY + timedelta(days=day), random.choice([0, 50, 120, 150, 200, 240, 300, 420])) for day in range(7)),
        goals=tuple(_goal(random, number) for number in range(random.randint(3, 10))),
        targets=tuple(_target(random, category) for category in range(3) if random.random() < 0.5),
    )


def crowded_week(random: Random) -> OpenWeek:
    """Seven days with room for some of eighteen goals."""
    days = tuple(DayRoom(MONDAY + timedelta(days=day), random.choice([60, 120, 180, 240, 300])) for day in range(7))
    return OpenWeek(days, tuple(_goal(random, number) for number in range(18)), tuple(_target(random, category) for category in range(3)))


def _goal(random: Random, number: int) -> WeekGoal:
    minutes = random.choice([25, 60, 90, 120, 120, 180, 240, 360])
    return WeekGoal(
        f"goal {number}",
        minutes,
        task_value(pressing=random.random() < 0.3, pushes=random.choice([0, 0, 2]), behind_target=random.random() < 0.3),
        random.choice([None, 0, 1, 2]),
        random.choice([None, None, None, MONDAY + timedelta(days=2)]),
        random.choice([None, None, MONDAY + timedelta(days=4), MONDAY + timedelta(days=3)]),
        random.choice([30, 60, 60, 90] if minutes > 180 else [None, 30, 60]),
    )


def _target(random: Random, category: int) -> WeekTarget:
    at_least = random.choice([None, 60, 120, 200, 300])
    at_most = random.choice([None, None, (at_least or 0) + random.choice([0, 60, 130])])
    return WeekTarget(f"target {category}", category, at_least, at_most, random.choice([0, 0, 40, 90]))
