"""Keeping a copy, putting one back, and looking for faults.

``copy_to(database, path)`` while it runs; ``restore(path, url)`` while it does
not; ``check(url)`` at any time.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from storage.copying import copy_file, free_name, integrity_faults
from storage.database import Database, sqlite_path
from storage.errors import AlreadyThere, FileError, TooNew, Unreadable
from storage.lock import Lock
from storage.revision import revision_of


class FaultKind(StrEnum):
    """What can be wrong with a database file."""

    MISSING = "missing"
    UNREADABLE = "unreadable"
    TOO_NEW = "too new"
    DAMAGED = "damaged"
    OPEN_TO_OTHERS = "open to others"


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of the file at ``path``. ``detail`` is terse and technical."""

    kind: FaultKind
    path: Path
    detail: str


def copy_to(database: Database, path: Path) -> None:
    """Writes a consistent copy with mode 0600, checked and on the disk. Raises AlreadyThere, StorageError."""
    if path.exists():
        raise AlreadyThere(path)
    copy_file(database.path, path)


def restore(path: Path, url: str) -> Path | None:
    """Puts the copy at ``path`` in the place of the database, whose file is kept beside it under the name given back.

    The copy is looked at first, and nothing is moved unless it is sound. None is given back when there was no database.
    Raises Busy while the program runs on it, Unreadable, TooNew, Faulty or NoRoom.
    """
    if revision_of(path) is None:
        raise Unreadable(path, "holds no tables")
    target = sqlite_path(url)
    lock = Lock(target)
    try:
        fresh = free_name(target, "restoring")
        copy_file(path, fresh)
        aside = _put_aside(target)
        os.replace(fresh, target)
    finally:
        lock.release()
    return aside


def check(url: str) -> tuple[Fault, ...]:
    """What is wrong with the database file; nothing when it is sound. Changes nothing."""
    path = sqlite_path(url)
    if not path.exists():
        return (Fault(FaultKind.MISSING, path, "no such file"),)
    open_to_others = path.stat().st_mode & 0o077
    exposed = (Fault(FaultKind.OPEN_TO_OTHERS, path, f"mode {path.stat().st_mode & 0o777:04o}"),) if open_to_others else ()
    try:
        revision_of(path)
        return (*exposed, *(Fault(FaultKind.DAMAGED, path, found) for found in integrity_faults(path)))
    except TooNew as newer:
        return (*exposed, Fault(FaultKind.TOO_NEW, path, newer.revision))
    except FileError as failed:
        return (*exposed, Fault(FaultKind.UNREADABLE, path, failed.reason))


def _put_aside(target: Path) -> Path | None:
    """Keeps the database and its log under another name. The log goes first: it must never meet another database."""
    if not target.exists():
        return None
    aside = free_name(target, "before-restoring")
    os.link(target, aside)
    for ending in ("-wal", "-shm"):
        beside = target.with_name(target.name + ending)
        if beside.exists():
            os.replace(beside, aside.with_name(aside.name + ending))
    return aside
