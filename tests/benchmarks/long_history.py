"""Ten years of one person: how long recaps, months and questions about hours take, beside the bare SQL that fetches the same rows.

    python -m tests.benchmarks.long_history [stints]

Each question is asked as the bot asks it, understanding and wording included, but for the transaction's end. The bare SQL fetches,
with Python's own sqlite3, every row that the answer is made of: the stints of its days and of the days they are compared with, and
for recaps and months the tasks, goals, blocks and commitments of these days. Prints a line a question: ours, theirs and the ratio of
the two, each the median of several runs taken in turn; ends with an error where one is over the limits.
"""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random
from statistics import median
from tempfile import TemporaryDirectory
from time import process_time

from bot.actions.act import act
from bot.actions.knowing import context_of
from bot.actions.months import month_recap
from bot.actions.recap import after_recap, recap
from bot.language.context import Context
from bot.language.understand import understand
from bot.voice.manners import manners_of
from bot.voice.message import Message
from bot.voice.replies import Reply, Together
from bot.voice.say import say
from storage.database import Database
from storage.desk import Desk
from tests.stage import Stage

SEED = 20260308
LAST = date(2026, 3, 8)
YEARS = 10
RUNS = 15
MOST_MS = 50.0
MOST_RATIO = 3.0
ONE_DAY = timedelta(days=1)

Spans = tuple[tuple[date, date], ...]


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked, how we answer it, and the days whose stints, plans and hours on estimated tasks the answer is made of."""

    name: str
    ask: Callable[[Desk, Context], Reply]
    stints: Spans
    plans: Spans = ()
    tasks: Spans = ()


def asked(text: str, *stints: tuple[date, date], plans: Spans = ()) -> Question:
    """A question in the person's words."""
    return Question(text, lambda desk, context: act(desk, understand(text, context)), stints, plans)


def days(first: str, last: str) -> tuple[date, date]:
    """Two ISO days."""
    return date.fromisoformat(first), date.fromisoformat(last)


WEEK, AHEAD, YEAR = days("2026-03-02", "2026-03-08"), days("2026-03-09", "2026-03-15"), days("2025-03-02", "2026-03-08")
QUESTIONS = (
    Question(
        "the recap of the week, and the one ahead",
        lambda desk, _: Together((recap(desk, LAST), after_recap(desk, LAST))),
        (WEEK, days("2026-02-02", "2026-03-01")),
        (WEEK, AHEAD),
        (YEAR,),
    ),
    Question(
        "the recap of a month",
        lambda desk, _: month_recap(desk, date(2026, 2, 28)),
        (days("2026-02-01", "2026-02-28"), days("2026-01-01", "2026-01-31")),
    ),
    asked("month", days("2026-03-01", "2026-03-31"), days("2026-02-01", "2026-02-08"), plans=(days("2026-03-01", "2026-03-31"),)),
    asked("hours", WEEK, days("2026-02-23", "2026-03-01")),
    asked("hours last week museum", days("2026-02-23", "2026-03-01"), days("2026-02-16", "2026-02-22")),
    asked("hours february", days("2026-02-01", "2026-02-28"), days("2026-01-01", "2026-01-31")),
    asked("hours 2 march 2024 to 15 march 2025", days("2024-03-02", "2025-03-15"), days("2023-02-17", "2024-03-01")),
    asked("hours last year", days("2025-01-01", "2025-12-31"), days("2024-01-01", "2024-12-31")),
    asked("museum hours 2020", days("2020-01-01", "2020-12-31"), days("2019-01-01", "2019-12-31")),
    asked("hours last 10 years", days("2016-03-09", "2026-03-08")),
)


def main(stints: int = 150_000) -> int:
    """Builds the history, asks everything, and gives 1 if a limit was passed."""
    with TemporaryDirectory() as folder:
        stage = Stage(Path(folder), at="2026-03-08 18:00")
        _set_up(stage)
        person_id = stage.person_id
        stage.house.database.close()
        with closing(sqlite3.connect(stage.path)) as connection:
            _fill(connection, stints)
        database = Database(f"sqlite:///{stage.path}")
        with database.desk(person_id, stage.now) as desk, closing(sqlite3.connect(stage.path)) as bare:
            passed = [_race(question, desk, bare) for question in QUESTIONS]
        database.close()
    return int(not all(passed))


def _set_up(stage: Stage) -> None:
    for text in (
        "workshop shift every mon, wed and fri 9-17 workshop",
        "museum shift every tue and thu 13-17 museum",
        "choir every thursday 19:30-21:00 minor",
        "target learning at least 5h",
        "target workshop at most 40h",
        "month goal paint the shed home",
    ):
        stage.say(text)


def _fill(connection: sqlite3.Connection, count: int) -> None:
    """Stints without times on random days of ten years; beside them three tasks a day, a block a day and two goals a week."""
    random = Random(SEED)
    first = LAST - timedelta(days=365 * YEARS)
    categories = [row[0] for row in connection.execute("SELECT id FROM categories ORDER BY id")]
    every_day = [first + n * ONE_DAY for n in range((LAST - first).days + 1)]
    tasks = [(number, day.isoformat(), random.choice(categories)) for number, day in enumerate((d for d in every_day for _ in range(3)), 1)]
    connection.executemany(
        "INSERT INTO tasks (person_id, id, title, day, number, category_id, estimate_minutes, state, pushes, outdoors, settled) "
        "VALUES (1, ?, 'oil the chains', ?, 1, ?, ?, 'closed', '[]', 0, ?)",
        [(number, day, category, None if number % 3 else 30, day) for number, day, category in tasks],
    )
    rows = []
    for number in range(1, count + 1):
        day = random.choice(every_day).isoformat()
        on_task = f"[{random.randint(1, len(tasks))}]" if number % 20 == 0 else "[]"
        rows.append((number, random.choice(categories), day, random.randint(1, 60), on_task))
    connection.executemany(
        "INSERT INTO stints (person_id, id, category_id, day, minutes, break_minutes, task_ids) VALUES (1, ?, ?, ?, ?, 0, ?)", rows
    )
    connection.executemany(
        "INSERT INTO blocks (person_id, id, day, starts, ends, title, category_id, accepted) VALUES (1, ?, ?, ?, ?, 'reading', ?, 1)",
        [(n, *_morning(day), random.choice(categories)) for n, day in enumerate(every_day, 1)],
    )
    weeks = [day for day in every_day if day.weekday() == 0]
    connection.executemany(
        "INSERT INTO goals (person_id, id, title, horizon, period, section, state, carried) "
        "VALUES (1, ?, 'finish chapter 4', 'week', ?, 'personal', ?, 1)",
        [(100 + n, week.isoformat(), random.choice(["met", "carried"])) for n, week in enumerate(w for w in weeks for _ in range(2))],
    )
    connection.commit()


def _morning(day: date) -> tuple[str, str, str]:
    at = datetime(day.year, day.month, day.day, 6, tzinfo=UTC)
    stamps = [f"{each:%Y-%m-%dT%H:%M:%S.%f}Z" for each in (at, at + timedelta(hours=1))]
    return day.isoformat(), stamps[0], stamps[1]


def _race(question: Question, desk: Desk, bare: sqlite3.Connection) -> bool:
    """Prints both times; whether the limits hold."""
    ours, theirs = [], []
    for _ in range(RUNS):
        began = process_time()
        message = _answer(question, desk)
        between = process_time()
        rows = sum(len(found) for found in _fetch(question, bare))
        ours.append(between - began)
        theirs.append(process_time() - between)
    assert message.text
    own, other = median(ours) * 1000, median(theirs) * 1000
    print(f"{question.name:40} {own:8.2f} ms  bare {other:8.2f} ms for {rows:6} rows  ratio {own / other:6.2f}")  # noqa: T201
    return own < MOST_MS and own < MOST_RATIO * other


def _answer(question: Question, desk: Desk) -> Message:
    context = context_of(desk)
    return say(question.ask(desk, context), manners_of(desk.person, desk.now), lambda: context)


def _fetch(question: Question, bare: sqlite3.Connection) -> Iterator[list[tuple[object, ...]]]:
    for first, last in question.stints:
        yield _rows(bare, "stints", first, last)
    for first, last in question.plans:
        for table in ("tasks", "blocks"):
            yield _rows(bare, table, first, last)
        yield bare.execute("SELECT * FROM goals WHERE person_id = 1 AND period BETWEEN ? AND ?", _iso(first, last)).fetchall()
        yield bare.execute("SELECT * FROM commitments WHERE person_id = 1").fetchall()

    for first, last in question.tasks:
        yield _rows(bare, "stints", first, last, "AND task_ids <> '[]'", columns="day, minutes, task_ids")
        yield _rows(bare, "tasks", first, last, "AND state = 'closed' AND estimate_minutes > 0")


def _rows(bare: sqlite3.Connection, table: str, first: date, last: date, more: str = "", columns: str = "*") -> list[tuple[object, ...]]:
    return bare.execute(f"SELECT {columns} FROM {table} WHERE person_id = 1 AND day BETWEEN ? AND ? {more}", _iso(first, last)).fetchall()


def _iso(first: date, last: date) -> tuple[str, str]:
    return first.isoformat(), last.isoformat()


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
