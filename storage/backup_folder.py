"""The folder of daily copies: one file a day, checked when made, and only so many of them.

The folder is its own record. A day has its copy when the file of that day is
there, and it gets its name only once it is whole.
"""

from __future__ import annotations

import os
import re
from collections.abc import Collection, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from storage.backup import copy_sealed_or_plain, unsealed
from storage.copying import copy_file, free_name, integrity_faults
from storage.errors import Faulty
from storage.forgetting import forget_in, holds_any
from storage.revision import revision_of
from storage.rotation import Rotation, staying
from storage.sealing import is_sealed

_NAME = re.compile(r"(.{1,200})-(\d{4}-\d{2}-\d{2})\.(sqlite|sealed)")


@dataclass(frozen=True, slots=True)
class DailyCopy:
    """The copy of one day (UTC)."""

    day: date
    path: Path


class BackupFolder:
    """The daily copies of the database file ``source`` in ``folder``, sealed when there is a ``secret``."""

    def __init__(self, source: Path, folder: Path | None = None, secret: str | None = None) -> None:
        self.source = source
        self.folder = folder or source.parent / "backups"
        self._secret = secret

    def copies(self) -> tuple[DailyCopy, ...]:
        """Those there are, oldest first. Raises Faulty when the folder cannot be read."""
        with self._in_words():
            if not self.folder.exists():
                return ()
            found = [_copy(path, self.source.stem) for path in self.folder.iterdir()]
        return tuple(sorted((each for each in found if each is not None), key=lambda each: each.day))

    def has(self, day: date) -> bool:
        """Whether there is one of that day. Raises Faulty."""
        return any(copy.day == day for copy in self.copies())

    def make(self, day: date) -> Path:
        """Makes the copy of that day and gives its file. Raises StorageError; then there is none."""
        path = self.folder / f"{self.source.stem}-{day.isoformat()}.{'sealed' if self._secret else 'sqlite'}"
        self._write(path.with_name(path.name + ".part"), path, self.source, self._secret)
        return path

    def try_out(self) -> None:
        """Makes a copy and takes it away again, which shows that the next one can be made. Raises StorageError."""
        trial = self.folder / f"{self.source.stem}.trial"
        self._write(trial, trial, self.source, self._secret)
        with self._in_words():
            trial.unlink()

    def rotate(self, today: date, rotation: Rotation) -> tuple[Path, ...]:
        """Takes away the copies that need not stay, and gives their files. Raises Faulty."""
        copies = self.copies()
        stay = staying((copy.day for copy in copies), today, rotation)
        gone = tuple(copy.path for copy in copies if copy.day not in stay)
        with self._in_words():
            for path in gone:
                path.unlink(missing_ok=True)
        return gone

    def forget(self, ids: Collection[int]) -> None:
        """Takes these erased people out of every copy. Raises StorageError at the first copy that cannot be written anew."""
        for copy in self.copies():
            with unsealed(copy.path, self.source, self._secret) as plain:
                if holds_any(plain, ids):
                    self._write_without(ids, plain, copy.path)

    def faults_of(self, copy: DailyCopy) -> tuple[str, ...]:
        """What is wrong inside a copy. Raises StorageError when it cannot be looked into: NoKey, WrongKey, Unreadable, TooNew."""
        with unsealed(copy.path, self.source, self._secret) as plain:
            revision_of(plain)
            return integrity_faults(plain)

    def _write_without(self, ids: Collection[int], plain: Path, path: Path) -> None:
        fresh = free_name(self.source, "forgetting")
        copy_file(plain, fresh)
        try:
            forget_in(fresh, ids)
            self._write(path.with_name(path.name + ".part"), path, fresh, self._secret if is_sealed(path) else None)
        finally:
            fresh.unlink(missing_ok=True)

    def _write(self, part: Path, path: Path, source: Path, secret: str | None) -> None:
        with self._in_words():
            part.unlink(missing_ok=True)
        copy_sealed_or_plain(source, part, secret)
        with self._in_words():
            os.replace(part, path)

    @contextmanager
    def _in_words(self) -> Iterator[None]:
        try:
            yield
        except OSError as failed:
            raise Faulty(self.folder, failed.strerror or str(failed)) from failed


def _copy(path: Path, stem: str) -> DailyCopy | None:
    """The copy that a file's name says it is; None for any other file."""
    found = _NAME.fullmatch(path.name)
    if found is None or found[1] != stem:
        return None
    try:
        return DailyCopy(date.fromisoformat(found[2]), path)
    except ValueError:
        return None
