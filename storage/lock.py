"""The lock that keeps two copies of the program off one database."""

from __future__ import annotations

import fcntl
import os
from pathlib import Path

from storage.errors import Busy, Faulty


class Lock:
    """A lock on ``<file>.lock``. The system gives it up when the process ends, however it ends."""

    def __init__(self, path: Path) -> None:
        """Takes the lock for the database file at ``path``. Raises Busy when another has it, Faulty when it cannot be made."""
        try:
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            self._file = os.open(path.with_name(path.name + ".lock"), os.O_CREAT | os.O_RDWR | os.O_CLOEXEC, 0o600)
        except OSError as failed:
            raise Faulty(path, failed.strerror or str(failed)) from failed
        try:
            fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as taken:
            os.close(self._file)
            raise Busy(path) from taken

    def release(self) -> None:
        """Gives the lock up. The file stays: taking it away could let two in."""
        os.close(self._file)
