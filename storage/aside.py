"""Messages that were set aside, looked at without opening the database for use."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from storage.opening import is_server, open_kind, sqlite_path
from storage.sqlite import looking_into


@dataclass(frozen=True, slots=True)
class SetAside:
    """A parcel that is not tried again, and why; ``written`` is a UTC instant."""

    id: int
    written: datetime
    reason: str


def parcels_set_aside(url: str) -> tuple[SetAside, ...]:
    """All of them, the newest first. Raises StorageError."""
    query = "SELECT id, written, reason FROM parcels WHERE state = 'aside' ORDER BY id DESC"
    return tuple(SetAside(id, datetime.fromisoformat(written), reason or "") for id, written, reason in _rows(url, query))


def _rows(url: str, query: str) -> list[tuple[int, str, str | None]]:
    if not is_server(url):
        with looking_into(sqlite_path(url)) as connection:
            return list(connection.execute(query))
    kind = open_kind(url)
    try:
        with kind.engine.connect() as reading:
            return [(id, written, reason) for id, written, reason in reading.exec_driver_sql(query)]
    finally:
        kind.close()
