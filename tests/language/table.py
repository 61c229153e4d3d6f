"""Reads and writes the tables in ``replies/``.

A line is a reply, ``=>`` and its meaning: the kind, and the fields that are
filled, as ``understand --json`` names them. ``+`` stands between the stints of
a log, the parts of several and the choices of a question; ``\\n`` in a reply is
a new line. A field with a space in it is in quotes. Empty lines and ``#`` part the groups.
"""

from __future__ import annotations

import shlex
from dataclasses import dataclass
from pathlib import Path

from bot.language.wire import Json

FOLDER = Path(__file__).parent / "replies"
LISTS = {"log": "stints", "several": "parts", "ask": "choices"}


@dataclass(frozen=True, slots=True)
class Row:
    """A reply and its meaning as the table writes it; ``place`` is the file and line."""

    place: str
    reply: str
    meaning: str


def rows(name: str) -> list[Row]:
    """All rows of the table ``name``."""
    found = []
    for number, line in enumerate((FOLDER / name).read_text(encoding="utf-8").splitlines(), 1):
        if line.strip() and not line.startswith("#"):
            reply, _, meaning = line.partition(" => ")
            found.append(Row(f"{name}:{number}", reply.strip().replace("\\n", "\n"), meaning.strip()))
    return found


def told(wire: dict[str, Json]) -> str:
    """A meaning as a table writes it: an empty field, no break and the usual importance go without saying."""
    kind = str(wire["kind"])
    inner = wire.get(LISTS.get(kind, ""))
    if isinstance(inner, list):
        return f"{kind} " + " + ".join(_inner(kind, item) for item in inner if isinstance(item, dict))
    fields = [
        f"{name}={shlex.quote(_value(value))}" for name, value in wire.items() if name != "kind" and not _goes_without_saying(name, value)
    ]
    return " ".join([kind, *fields])


def _inner(kind: str, item: dict[str, Json]) -> str:
    if kind == "log":
        return told({"kind": "", **item}).strip()
    return f"({told(item)})" if item["kind"] in LISTS else told(item)


def _goes_without_saying(name: str, value: Json) -> bool:
    if name in ("near", "major"):
        return name == "near" or value is True
    return value in (None, [], False) or (name == "break_minutes" and value == 0)


def _value(value: Json) -> str:
    if isinstance(value, list):
        return ",".join(str(item) for item in value)
    return str(value).lower() if isinstance(value, bool) else str(value)
