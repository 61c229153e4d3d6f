"""README shows what the program really prints: each block of text in it is looked for in the played demo week."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from datetime import datetime, time
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bot.language.context import Context, Named, Planned
from bot.language.meaning import Unknown
from bot.language.understand import understand

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
RUNNING = (ROOT / "deploy" / "running.md").read_text("utf-8")
PAGES = ("README.md", "DEVELOPERS.md", "CHANGELOG.md", "deploy/running.md", "deploy/faults.md", "deploy/threat_model.md")
MONDAY_EVENING = datetime(2026, 3, 2, 18, tzinfo=ZoneInfo("Europe/Brussels"))
TASKS = ((1, "order spokes"), (2, "oil the chains"), (3, "call the glazier"))
SHIFT = (Planned("museum", time(13), time(17)),)
LARGEST_PICTURE = 200_000
"""Bytes of the one picture, so that the page opens quickly on a phone."""


def test_every_message_in_the_readme_is_printed_by_the_demo_week() -> None:
    blocks = re.findall(r"```text\n(.*?)```", README, re.S)
    printed = _printed("rehearse", "sample_config/week.txt")
    assert len(blocks) >= 5
    for block in blocks:
        assert block.rstrip("\n") in printed, block


@pytest.mark.parametrize("page", PAGES)
def test_links_lead_to_files_that_are_there(page: str) -> None:
    text = (ROOT / page).read_text("utf-8")
    links = [link for link in re.findall(r"\]\(([^)\s]+)\)", text) if "://" not in link]
    named = re.findall(r"`((?:bot|deploy|sample_config|storage|tests)/[\w./]+\.\w+)`", text)
    beside = (ROOT / page).parent
    assert [link for link in links if not (beside / link).exists()] == []
    assert [name for name in named if not (ROOT / name).exists()] == []


def test_the_one_picture_is_small_and_drawn_by_the_program() -> None:
    (picture,) = re.findall(r'<img [^>]*src="([^"]+)"', README)
    assert picture.startswith("sample_config/pictures/")
    assert 0 < (ROOT / picture).stat().st_size <= LARGEST_PICTURE


def test_the_first_screen_has_the_message_and_the_picture_then_the_commands() -> None:
    places = [README.index(each) for each in ("```text", "sh deploy/try.sh", "sh tests/run.sh", "## A day", "## A week", "## A payday")]
    assert README.index("<img") < places[1]
    assert places == sorted(places)
    assert README[: places[1]].count("\n") <= 45


def test_every_reply_in_its_table_is_understood() -> None:
    categories = tuple(Named(name, (), "work", True) for name in ("workshop", "museum", "learning", "family", "home"))
    context = Context(
        MONDAY_EVENING, categories, ("work", "personal"), tasks=TASKS, routines=("exercise",), planned=SHIFT, last_end=time(13)
    )
    rows = [line.split("|")[2] for line in README.splitlines() if line.startswith("| ") and "`" in line]
    replies = [reply for row in rows for reply in re.findall(r"`([^`]+)`", row) if reply != ".ics"]
    assert len(replies) > 70
    either = (context, replace(context, clocked_in="workshop", clocked_since=time(9)))
    assert [reply for reply in replies if all(isinstance(understand(reply, each), Unknown) for each in either)] == []


def test_every_command_that_is_shown_is_one_and_every_one_is_shown() -> None:
    rows = [row.split("|")[1] for row in RUNNING.splitlines() if row.startswith("| `weekwright ")]
    shown = {word for row in rows for word in re.findall(r"`(?:weekwright )?([a-z]+)[ `]", row)}
    assert shown == set(re.findall(r"^    ([a-z]+)(?: |$)", _printed("--help"), re.M))


@pytest.mark.parametrize("page", ["README.md", "deploy/running.md", "deploy/faults.md", "deploy/threat_model.md"])
def test_every_variable_that_is_shown_is_read(page: str) -> None:
    source = "".join(path.read_text("utf-8") for path in (ROOT / "bot").rglob("*.py"))
    shown = set(re.findall(r"WEEKWRIGHT_[A-Z_]+", (ROOT / page).read_text("utf-8")))
    assert shown <= set(re.findall(r'"(WEEKWRIGHT_[A-Z_]+)"', source))


def _printed(*arguments: str) -> str:
    command = [sys.executable, "-m", "bot", *arguments]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True, timeout=300).stdout
