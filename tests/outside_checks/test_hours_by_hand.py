"""A thousand random histories: what we add up is what a plain loop over the raw rows adds up.

Source: the definition of a sum; nothing of ours is used to find the other total.
"""

from __future__ import annotations

import sqlite3
from collections import Counter
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from random import Random

import pytest

from bot.actions.hours_asked import show_hours
from bot.language.meaning import Show
from bot.rules.weeks import days_from
from storage.database import Database
from tests.stage import Stage

HISTORIES = 1000
SEED = 20260308
NOW = datetime(2026, 3, 8, 18, tzinfo=UTC)
FIRST = date(2024, 1, 1)
CATEGORY_NAMES = ("workshop", "museum", "learning", "family", "home")


@dataclass(frozen=True, slots=True)
class History:
    """A person's stints as (category id, day, minutes), and a span of days."""

    person_id: int
    stints: tuple[tuple[int, date, int], ...]
    first: date
    last: date

    def by_hand(self) -> Counter[int]:
        """Minutes by category id within the span."""
        minutes: Counter[int] = Counter()
        for category_id, day, spent in self.stints:
            if self.first <= day <= self.last:
                minutes[category_id] += spent
        return minutes


def made(random: Random, person_id: int) -> History:
    """Up to forty stints on days of two years, and a span that may hold all, some or none."""
    stints = tuple(
        (random.randint(1, len(CATEGORY_NAMES)), FIRST + timedelta(days=random.randint(0, 800)), random.randint(0, 900))
        for _ in range(random.randint(0, 40))
    )
    first = FIRST + timedelta(days=random.randint(-30, 800))
    return History(person_id, stints, first, first + timedelta(days=random.choice((0, 6, 30, 89, 364, 800))))


def write(connection: sqlite3.Connection, history: History) -> None:
    """A person like the first, with the stints of the history, without any code of ours."""
    for table in ("people", "sections", "categories"):
        columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
        owner = "id" if table == "people" else "person_id"
        copied = ", ".join({owner: "?1", "address": "'stage:' || ?1"}.get(name, name) for name in columns)
        connection.execute(f"INSERT INTO {table} SELECT {copied} FROM {table} WHERE {owner} = 1", (history.person_id,))
    connection.executemany(
        "INSERT INTO stints (person_id, id, category_id, day, minutes, break_minutes, task_ids) VALUES (?, ?, ?, ?, ?, 0, '[]')",
        [(history.person_id, id, category, day.isoformat(), spent) for id, (category, day, spent) in enumerate(history.stints, 1)],
    )


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Database, list[History]]]:
    """One database with a person a history."""
    stage = Stage(tmp_path_factory.mktemp("hours"), at="2026-03-08 18:00")
    stage.close()
    random = Random(SEED)
    histories = [made(random, person_id) for person_id in range(2, HISTORIES + 2)]
    with closing(sqlite3.connect(stage.path)) as connection:
        for each in histories:
            write(connection, each)
        connection.commit()
    database = Database(f"sqlite:///{stage.path}")
    yield database, histories
    database.close()


def test_sums_by_category_are_those_added_up_by_hand(kept: tuple[Database, list[History]]) -> None:
    database, histories = kept
    for each in histories:
        with database.desk(each.person_id, NOW) as desk:
            sums = desk.stints.minutes_by_category(each.first, each.last)
            assert {id: minutes for id, minutes in sums.items() if minutes} == +each.by_hand()
            assert desk.stints.first_day() == min((day for _, day, _ in each.stints), default=None)


def test_the_sum_of_the_days_is_the_sum_of_the_period_in_exact_minutes(kept: tuple[Database, list[History]]) -> None:
    database, histories = kept
    for each in histories:
        with database.desk(each.person_id, NOW) as desk:
            by_day = desk.stints.minutes_of_days(each.first, each.last)
            assert sum(by_day.values()) == sum(desk.stints.minutes_by_category(each.first, each.last).values())
            assert set(by_day) <= set(days_from(each.first, each.last))


def test_what_the_person_is_told_are_the_same_totals_and_its_parts_add_up_to_them(kept: tuple[Database, list[History]]) -> None:
    database, histories = kept
    for each in histories:
        with database.desk(each.person_id, NOW) as desk:
            told = show_hours(desk, Show("hours", first=each.first, last=each.last))
            by_hand = each.by_hand()
            assert {item.category: item.spent for item in told.hours if item.spent} == {
                CATEGORY_NAMES[id - 1]: minutes for id, minutes in by_hand.items() if minutes
            }
            if told.parts:
                assert sum(minutes for _, minutes in told.parts) == sum(by_hand.values())
