"""A week as it is played: a script and its settings -> what was said, and what the database then holds."""

from __future__ import annotations

import json
import re
import sqlite3
import subprocess
import sys
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Week:
    """``lines`` are the dialogue's, as ``rehearse --json`` prints them; ``path`` is the database, ``files`` what the bot sent."""

    lines: tuple[dict[str, Any], ...]
    path: Path
    files: Path

    def of(self, round: str, kind: str = "message") -> list[dict[str, Any]]:
        """What came unasked, by its round."""
        return [line for line in self.lines if line["round"] == round and line["kind"] == kind]

    def answer(self, said: str) -> str:
        """The bot's next words after the person first said or tapped this."""
        at = next(place for place, line in enumerate(self.lines) if line["from"] == "person" and line["text"] == said)
        return str(self.lines[at + 1]["text"])

    def minutes(self, first: str, last: str) -> dict[str, int]:
        """Minutes kept by category, from one day to another, asked of the database without the program."""
        with closing(sqlite3.connect(self.path)) as connection:
            rows = connection.execute(
                "SELECT categories.name, sum(stints.minutes) FROM stints JOIN categories ON categories.id = stints.category_id"
                " WHERE stints.day BETWEEN ? AND ? GROUP BY 1",
                (first, last),
            )
            return {name.capitalize(): total for name, total in rows}


def played(name: str, folder: Path) -> Week:
    """Plays ``name``.txt with the settings ``name``.toml."""
    path, files = folder / f"{name}.sqlite", folder / "files"
    command = [sys.executable, "-m", "bot", "rehearse", str(HERE / f"{name}.txt"), "--settings", str(HERE / f"{name}.toml"), "--json"]
    command += ["--database", f"sqlite:///{path}", "--files", str(files)]
    run = subprocess.run(command, cwd=HERE.parents[1], capture_output=True, text=True, check=True, timeout=300)
    return Week(tuple(json.loads(line) for line in run.stdout.splitlines()), path, files)


def hours_told(text: str) -> dict[str, int]:
    """Minutes by category, as a recap or a view of hours tells them: "Museum: 7 h 30, planned 8 h" is 450."""
    told = re.findall(r"^([\w ]+): ((?:\d+ h)?(?: ?\d+)?(?: min)?)(?:,|$)", text, re.M)
    return {name: _minutes(spent) for name, spent in told}


def _minutes(text: str) -> int:
    """Minutes of "3 h 30", "3 h", "45 min"."""
    hours, rest = re.search(r"(\d+) h", text), re.search(r"h (\d+)|(\d+) min", text)
    return 60 * int(hours[1] if hours else 0) + int((rest[1] or rest[2]) if rest else 0)
