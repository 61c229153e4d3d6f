"""What the post could not deliver, read from a file that may be in use."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from storage.database import sqlite_path
from storage.sqlite import looking_into

_ASIDE = "SELECT reason, written FROM parcels WHERE state = 'aside' AND written >= ? ORDER BY id"
_OWED = "SELECT count(*) FROM parcels WHERE state = 'owed' AND written < ?"


@dataclass(frozen=True, slots=True)
class Undelivered:
    """How many messages were set aside, why and when (UTC) the newest of them was written, and how many still wait."""

    aside: int
    newest_reason: str
    newest_written: datetime | None
    waiting: int


def undelivered(url: str, since: datetime, waiting_before: datetime) -> Undelivered:
    """Messages set aside that were written since then (UTC), and those still owed that were written before. Raises StorageError."""
    with looking_into(sqlite_path(url)) as connection:
        aside = connection.execute(_ASIDE, (since.isoformat(),)).fetchall()
        (waiting,) = connection.execute(_OWED, (waiting_before.isoformat(),)).fetchone()
    if not aside:
        return Undelivered(0, "", None, waiting)
    reason, written = aside[-1]
    return Undelivered(len(aside), reason or "", datetime.fromisoformat(written), waiting)
