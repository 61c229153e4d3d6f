"""README shows what the program really prints: each block of text in it is looked for in the played demo week."""

from __future__ import annotations

import re
import subprocess
import sys
from itertools import takewhile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


def test_every_message_in_the_readme_is_printed_by_the_demo_week() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    blocks = re.findall(r"```text\n(.*?)```", readme, re.S)
    command = [sys.executable, "-m", "bot", "rehearse", "sample_config/week.txt"]
    printed = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True, timeout=300).stdout
    assert len(blocks) >= 4
    for block in blocks:
        assert block.rstrip("\n") in printed, block


def test_every_reply_that_the_readme_shows_is_understood() -> None:
    examples = [example for row in _table("to") for example in re.findall(r"`([^`]+)`", row[1]) if example != ".ics"]
    printed = _printed("understand", "--now", "2026-03-05T18:00", given="\n".join(examples))
    understood = [line for line in printed.splitlines() if line.strip()]
    assert len(examples) > 70
    assert [line for line in understood if "not understood" in line.lower()] == []


def test_every_command_that_is_shown_is_one_and_every_one_is_shown() -> None:
    shown = {word for row in _table("command") for word in re.findall(r"`(?:weekwright )?([a-z]+)[ `]", row[0])}
    assert shown == set(re.findall(r"^    ([a-z]+)(?: |$)", _printed("--help"), re.M))


@pytest.mark.parametrize("page", ["README.md", "deploy/running.md", "deploy/faults.md", "deploy/threat_model.md"])
def test_every_variable_that_is_shown_is_read(page: str) -> None:
    source = "".join(path.read_text("utf-8") for path in (ROOT / "bot").rglob("*.py"))
    shown = set(re.findall(r"WEEKWRIGHT_[A-Z_]+", (ROOT / page).read_text("utf-8")))
    assert shown <= set(re.findall(r'"(WEEKWRIGHT_[A-Z_]+)"', source))


def _table(first_column: str) -> list[list[str]]:
    """The rows of README's table that has this heading first."""
    lines = (ROOT / "README.md").read_text("utf-8").splitlines()
    start = next(number for number, line in enumerate(lines) if line.startswith(f"| {first_column} |"))
    rows = takewhile(lambda line: line.startswith("|"), lines[start + 2 :])
    return [[cell.strip() for cell in row.strip("|").split(" | ")] for row in rows]


def _printed(*arguments: str, given: str = "") -> str:
    command = [sys.executable, "-m", "bot", *arguments]
    return subprocess.run(command, cwd=ROOT, input=given, capture_output=True, text=True, check=True, timeout=300).stdout
