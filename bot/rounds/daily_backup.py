"""The backup that is made by itself: one a day (UTC), the old ones taken away, the erased taken out."""

from __future__ import annotations

import logging
from datetime import date, datetime, timedelta

from bot.rounds.off_loop import off_loop
from storage.backup_folder import BackupFolder
from storage.errors import StorageError
from storage.everything import Everything
from storage.rotation import Rotation

AGAIN_AFTER = timedelta(hours=1)

log = logging.getLogger("weekwright.backup")


class DailyBackup:
    """A round of the house, not of a person. The folder says whether the day's copy is made; nothing else is kept of it."""

    def __init__(self, folder: BackupFolder, rotation: Rotation, everything: Everything) -> None:
        self._folder = folder
        self._rotation = rotation
        self._everything = everything
        self._made: date | None = None
        self._not_before: datetime | None = None
        self._fault: str | None = None

    async def tick(self, now: datetime) -> None:
        """Makes the day's copy if it is still to be made. A fault is logged once, and the next try comes an hour later."""
        if not self._rotation.daily or self._made == now.date() or self._waits(now):
            return
        try:
            await off_loop(lambda: self._make(now.date()))
        except StorageError as error:
            self._not_before = now + AGAIN_AFTER
            self._tell(f"{type(error).__name__}: {error}")
        else:
            self._made, self._not_before, self._fault = now.date(), None, None

    def _make(self, day: date) -> None:
        """All of it may be done again: after a fault, what is left of it is."""
        if not self._folder.has(day):
            log.info("backup %s made", self._folder.make(day).name)
        self._folder.rotate(day, self._rotation)
        self._forget()

    def _forget(self) -> None:
        """Who was erased since the last round is taken out of the copies that stay."""
        erased = self._everything.erased()
        if erased:
            self._folder.forget(erased)
            self._everything.forgotten(erased)
            log.info("%d erased taken out of the backups", len(erased))

    def _waits(self, now: datetime) -> bool:
        """Whether the last try failed lately; a clock set back does not make the wait longer."""
        return self._not_before is not None and self._not_before - AGAIN_AFTER <= now < self._not_before

    def _tell(self, fault: str) -> None:
        if fault != self._fault:
            log.error("the daily backup failed: %s", fault)
            self._fault = fault
