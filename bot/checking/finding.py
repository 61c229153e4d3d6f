"""What ``check`` found out about one thing."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Finding:
    """A sentence, and whether it tells of a fault. What is worth a word but no alarm is none."""

    words: str
    at_fault: bool = False
