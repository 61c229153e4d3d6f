"""The demo week, played as a newcomer plays it."""

from __future__ import annotations

import json
import re
import sqlite3
import subprocess
import sys
from collections import Counter
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
MINUTES = {"Workshop": 1443, "Museum": 450, "Learning": 150, "Family": 270, "Home": 150}
"""What week.txt logs, added up by hand: minutes by category."""


@pytest.fixture(scope="module")
def played(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[dict[str, Any]], Path]:
    path = tmp_path_factory.mktemp("week") / "week.sqlite"
    command = [sys.executable, "-m", "bot", "rehearse", "sample_config/week.txt", "--json", "--database", f"sqlite:///{path}"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True, timeout=300)
    return [json.loads(line) for line in run.stdout.splitlines()], path


def texts(lines: list[dict[str, Any]], round: str, kind: str = "message") -> list[str]:
    return [line["text"] for line in lines if line["round"] == round and line["kind"] == kind]


def test_there_is_one_morning_message_a_day(played: tuple[list[dict[str, Any]], Path]) -> None:
    lines, _ = played
    days = [line["at"][:10] for line in lines if line["round"] == "morning" and line["kind"] == "message"]
    assert days == [f"2026-03-{day:02d}" for day in range(2, 9)]


def test_the_evening_nudges_are_those_with_something_open(played: tuple[list[dict[str, Any]], Path]) -> None:
    lines, _ = played
    evenings = [line["at"][:16] for line in lines if line["round"] == "evening"]
    assert evenings == [f"2026-03-{day:02d}T20:00" for day in (3, 4, 5, 6, 7, 8)]


def test_the_recaps_hours_are_the_sum_of_what_was_logged(played: tuple[list[dict[str, Any]], Path]) -> None:
    lines, path = played
    (recap,) = texts(lines, "recap")
    told = {name: _minutes(spent) for name, spent in re.findall(r"^(\w+): ((?:\d+ h)?(?: ?\d+)?(?: min)?)", recap, re.M)}
    together = told.pop("Together")
    assert told == MINUTES
    assert together == sum(MINUTES.values())
    with closing(sqlite3.connect(path)) as connection:
        rows = connection.execute(
            "SELECT categories.name, sum(stints.minutes) FROM stints JOIN categories ON categories.id = stints.category_id GROUP BY 1"
        )
        assert {name.capitalize(): total for name, total in rows} == MINUTES


def _minutes(text: str) -> int:
    """Minutes of "3 h 30", "3 h", "45 min"."""
    hours = re.search(r"(\d+) h", text)
    rest = re.search(r"h (\d+)|(\d+) min", text)
    return 60 * int(hours[1] if hours else 0) + int((rest[1] or rest[2]) if rest else 0)


def test_no_message_is_longer_than_a_phone_shows_with_ease(played: tuple[list[dict[str, Any]], Path]) -> None:
    lines, _ = played
    long = Counter({line["text"].split("\n")[0]: line["text"].count("\n") + 1 for line in lines if line["from"] == "bot"})
    assert all(count <= 20 for count in long.values()), long.most_common(3)


def test_the_forecast_that_was_missing_on_friday_is_completed_later(played: tuple[list[dict[str, Any]], Path]) -> None:
    lines, _ = played
    (rewritten,) = texts(lines, "morning", "edit")
    assert rewritten.startswith("Friday 6 March")
    assert "No forecast" not in rewritten


def test_it_prints_the_same_twice(played: tuple[list[dict[str, Any]], Path], tmp_path: Path) -> None:
    lines, _ = played
    command = [sys.executable, "-m", "bot", "rehearse", "sample_config/week.txt", "--json"]
    again = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True, timeout=300)
    assert [json.loads(line) for line in again.stdout.splitlines()] == lines
