"""What was said in a rehearsal, line by line: in words, or as JSON."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

Labels = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Line:
    """One thing said; ``at`` is local and aware of its zone."""

    at: datetime
    speaker: Literal["bot", "person"]
    kind: Literal["message", "edit", "tap", "file"]
    text: str
    buttons: Labels = ()
    file: str | None = None
    silent: bool = False
    round: str | None = None


Write = Callable[[Line], None]


def as_json(line: Line) -> str:
    """One object on one line, with these keys whatever the step."""
    return json.dumps(
        {
            "at": line.at.isoformat(timespec="seconds"),
            "from": line.speaker,
            "kind": line.kind,
            "text": line.text,
            "buttons": [list(row) for row in line.buttons],
            "file": line.file,
            "silent": line.silent,
            "round": line.round,
        }
    )


def as_words(line: Line) -> str:
    """The line as on a narrow screen: who and when, then the text, then the buttons in rows."""
    shown = [f"{_who(line)}, {line.at:%a %d %b %H:%M}{', without a sound' if line.silent else ''}"]
    shown += [f"  {text}" for text in line.text.split("\n")]
    if line.file:
        shown.append(f"  file: {line.file}")
    shown += ["  " + "   ".join(f"[{label}]" for label in row) for row in line.buttons]
    return "\n".join(shown) + "\n"


def _who(line: Line) -> str:
    acts = {
        ("person", "message"): "You",
        ("person", "edit"): "You, editing your message",
        ("person", "tap"): "You tap",
        ("person", "file"): "You send",
        ("bot", "edit"): "Weekwright, rewriting its message",
    }
    return acts.get((line.speaker, line.kind), "Weekwright")
