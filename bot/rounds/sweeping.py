"""Sweeping up once a day what nobody needs any more: keys of deliveries long handled, and what strangers were told."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from storage.database import Database

KEPT_FOR = timedelta(days=30)
"""Telegram delivers an update again for a day at most: core.telegram.org/bots/api#getting-updates."""


class Sweeping:
    """A round of the house, not of a person."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._swept: date | None = None

    async def tick(self, now: datetime) -> None:
        """Sweeps unless it was done today (UTC). Raises StorageError."""
        if self._swept != now.date():
            self._database.handled.forget(now - KEPT_FOR)
            self._database.outbox.forget_strangers(now - KEPT_FOR)
            self._swept = now.date()
