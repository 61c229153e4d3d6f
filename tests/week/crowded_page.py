"""The crowded week as text that fits a phone: what sample_config/crowded_week.md holds.

    python -m tests.week.crowded_page

plays the week and writes that file anew.
"""

from __future__ import annotations

import json
import subprocess
import sys
import textwrap
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
SCRIPT = ROOT / "sample_config" / "crowded_week.txt"
PAGE = ROOT / "sample_config" / "crowded_week.md"
COLUMNS = 46
INTRODUCTION = """\
# A week that holds too much

What the bot and its person say in a week in which much comes at once: a goal that does not fit, named on Sunday;
a fourth major commitment, with a lighter day for it; a calendar that changes under its link; and a task outdoors
that goes to dry hours once rain is forecast. `weekwright rehearse sample_config/crowded_week.txt` plays it, and a
test compares what it says with this page.

"""


def played() -> list[dict[str, Any]]:
    """Every line of the dialogue, as ``rehearse --json`` prints it."""
    command = [sys.executable, "-m", "bot", "rehearse", str(SCRIPT), "--json"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True, timeout=300)
    return [json.loads(line) for line in run.stdout.splitlines()]


def page_of(lines: list[dict[str, Any]]) -> str:
    """The page: who, when and what, each line of text folded where a phone would fold it."""
    said = "\n".join(text for line in lines for text in (*_of(line), ""))
    return f"{INTRODUCTION}```text\n{said}```\n"


def _of(line: dict[str, Any]) -> list[str]:
    who = {"bot": "Weekwright", "person": "You tap" if line["kind"] == "tap" else "You"}[line["from"]]
    texts = [f"{who}, {line['at'][8:10]} March {line['at'][11:16]}"]
    for text in line["text"].split("\n"):
        texts += textwrap.wrap(text, COLUMNS, initial_indent="  ", subsequent_indent="    ") or [""]
    return [*texts, *(f"  [{label}]" for row in line["buttons"] for label in row)]


if __name__ == "__main__":
    PAGE.write_text(page_of(played()), "utf-8")
