"""Taking an erased person out of a copy of the database, whatever its schema revision."""

from __future__ import annotations

import sqlite3
from collections.abc import Collection
from contextlib import closing
from pathlib import Path

from storage.sqlite import leave_no_trace, looking_into, storage_error


def holds_any(path: Path, ids: Collection[int]) -> bool:
    """Whether any of these people is in the file. Raises StorageError."""
    with looking_into(path) as connection:
        return any(id in ids for (id,) in connection.execute("SELECT id FROM people"))


def forget_in(path: Path, ids: Collection[int]) -> None:
    """Removes these people and all that is theirs from the file, also from its bytes. Raises StorageError.

    In every revision a person's rows go when the person goes.
    """
    these = [(id,) for id in ids]
    try:
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            for pragma in ("foreign_keys = ON", "secure_delete = ON"):
                connection.execute(f"PRAGMA {pragma}")
            connection.execute("BEGIN IMMEDIATE")
            strangers = "DELETE FROM parcels WHERE person_id IS NULL AND address = (SELECT address FROM people WHERE id = ?)"
            connection.executemany(strangers, these)
            connection.executemany("DELETE FROM people WHERE id = ?", these)
            connection.execute("DELETE FROM forecasts")
            connection.execute("COMMIT")
    except sqlite3.Error as failed:
        raise storage_error(path, failed) from failed
    leave_no_trace(path)
