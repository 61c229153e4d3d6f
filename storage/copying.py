"""Copies of a database file that are consistent, private and checked."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path

from storage.errors import Faulty, StorageError, Unreadable
from storage.sqlite import looking_into, make_private


def copy_file(source: Path, target: Path) -> None:
    """Copies one moment of a database that may be in use, with mode 0600, and checks the copy.

    Uses SQLite's online backup (sqlite.org/backup.html). ``target`` must not exist and does not unless all went well.
    Raises Unreadable when the copy is not sound, NoRoom, Locked or Faulty.
    """
    make_private(target)
    try:
        _copy(source, target)
        faults = integrity_faults(target)
        if faults:
            raise Unreadable(source, faults[0])
        sync(target)
    except StorageError:
        target.unlink()
        raise


def integrity_faults(path: Path) -> tuple[str, ...]:
    """What SQLite finds wrong inside the file: damaged pages, or rows that name what is not there. Raises StorageError."""
    try:
        with looking_into(path) as connection:
            damaged = tuple(str(row[0]) for row in connection.execute("PRAGMA integrity_check"))
            if damaged != ("ok",):
                return damaged
            return tuple(dict.fromkeys(f"{row[0]} names {row[2]}" for row in connection.execute("PRAGMA foreign_key_check")))
    except Unreadable as hopeless:
        # Some damage stops the check itself.
        return (hopeless.reason,)


def free_name(path: Path, what: str) -> Path:
    """The first of ``<file>.<what>``, ``<file>.<what>-2``, … that is not taken."""
    number, free = 1, path.with_name(f"{path.name}.{what}")
    while free.exists():
        number += 1
        free = path.with_name(f"{path.name}.{what}-{number}")
    return free


def sync(path: Path) -> None:
    """Has the file and its name written to the disk. Raises Faulty."""
    for each in (path, path.parent):
        try:
            opened = os.open(each, os.O_RDONLY | os.O_CLOEXEC)
            os.fsync(opened)
            os.close(opened)
        except OSError as failed:
            raise Faulty(path, failed.strerror or str(failed)) from failed


def _copy(source: Path, target: Path) -> None:
    with looking_into(source) as old, closing(sqlite3.connect(target, isolation_level=None)) as new:
        old.backup(new)
        # The copy is one file: it needs no log beside it until it is opened for use.
        new.execute("PRAGMA journal_mode = DELETE")
