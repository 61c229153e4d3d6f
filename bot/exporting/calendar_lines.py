"""Content lines of a calendar. Source: RFC 5545, sections 3.1, 3.3.5 and 3.3.11."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import UTC, datetime
from typing import Final

MOST_OCTETS: Final = 75
CONTROLS: Final = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
"""What a text may not hold; a tab and a line's end it may."""


def content(lines: Iterable[str]) -> bytes:
    """The lines in UTF-8, folded and ended as the RFC wants it."""
    return "".join(f"{_folded(line)}\r\n" for line in lines).encode()


def quoted(text: str) -> str:
    """A text with its backslashes, commas, semicolons and line ends escaped."""
    whole = text.replace("\r\n", "\n").replace("\r", "\n")
    escaped = whole.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")
    return CONTROLS.sub("", escaped)


def instant(at: datetime) -> str:
    """An instant in UTC: "20260302T050000Z"."""
    return f"{at.astimezone(UTC):%Y%m%dT%H%M%S}Z"


def wall(at: datetime) -> str:
    """What a clock shows: "20260302T060000"."""
    return f"{at:%Y%m%dT%H%M%S}"


def _folded(line: str) -> str:
    """The line in parts of at most 75 octets, no letter of it cut in two; each part after the first begins with a space."""
    if len(line) * 4 <= MOST_OCTETS or len(line.encode()) <= MOST_OCTETS:
        return line
    parts, part, room = [], "", MOST_OCTETS
    for letter in line:
        octets = len(letter.encode())
        if octets > room:
            parts.append(part)
            part, room = "", MOST_OCTETS - 1
        part, room = part + letter, room - octets
    return "\r\n ".join([*parts, part])
