"""How far a reading has come."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(slots=True)
class Progress:
    """Events read so far, and how many there are as far as is known. One thread counts, others may look."""

    events: int = 0
    of: int = 0
