"""How an SQLite file is opened: private, durable, and with one writer at a time."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from functools import partial
from pathlib import Path

from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.pool import ConnectionPoolEntry

from storage.errors import Faulty, Locked, NoRoom, Refused, StorageError, Unkeepable, Unreadable
from storage.kind import translated

_PRAGMAS = (
    "PRAGMA busy_timeout = 3000",
    "PRAGMA journal_mode = WAL",
    # With FULL a commit outlives a loss of power; NORMAL may roll back the last ones (sqlite.org/pragma.html).
    "PRAGMA synchronous = FULL",
    "PRAGMA foreign_keys = ON",
    # What is deleted is overwritten with zeros.
    "PRAGMA secure_delete = ON",
)


def make_private(path: Path) -> None:
    """Makes the folder and an empty file with mode 0600 unless it is there: SQLite gives -wal and -shm the same mode.

    Raises Faulty.
    """
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        # Without O_TRUNC and O_EXCL a file that is there stays as it is, its mode and content too.
        os.close(os.open(path, os.O_CREAT | os.O_RDONLY | os.O_CLOEXEC, 0o600))
    except OSError as failed:
        raise Faulty(path, failed.strerror or str(failed)) from failed


@contextmanager
def looking_into(path: Path) -> Iterator[sqlite3.Connection]:
    """A plain connection that cannot write, for looking at a file that may be anything. Raises StorageError."""
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True, isolation_level=None)) as connection:
            # Not mode=ro: on a read-only file SQLite forgets the CHECKs, and its integrity check with them.
            connection.execute("PRAGMA query_only = ON")
            yield connection
    except sqlite3.Error as failed:
        raise storage_error(path, failed) from failed


def leave_no_trace(path: Path) -> None:
    """Writes the file anew and empties its log, so that neither holds what was deleted. Raises StorageError.

    A program that reads just then keeps the log from being emptied; it is, at the latest, when the database is closed.
    Source: sqlite.org/lang_vacuum.html, sqlite.org/pragma.html#pragma_wal_checkpoint.
    """
    try:
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            for pragma in ("busy_timeout = 3000", "secure_delete = ON", "temp_store = MEMORY"):
                connection.execute(f"PRAGMA {pragma}")
            connection.execute("VACUUM")
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    except sqlite3.Error as failed:
        raise storage_error(path, failed) from failed


def open_engine(path: Path, *, foreign_keys: bool = True) -> Engine:
    """An engine whose transactions begin at once as the only writer, and whose errors are StorageErrors."""
    url = URL.create("sqlite", database=str(path))
    # The connection that was used last comes first: its pages are at hand. In turns, each would read anew what the other wrote.
    engine = create_engine(url, connect_args={"isolation_level": None}, hide_parameters=True, pool_use_lifo=True)
    failures = SqliteFailures(path)
    event.listen(engine, "handle_error", partial(translated, failures))
    event.listen(engine, "connect", _prepare if foreign_keys else _prepare_to_migrate)
    event.listen(engine, "begin", partial(_begin, failures))
    return engine


def storage_error(path: Path, error: sqlite3.Error) -> StorageError:
    """What an error of the driver means, by its primary result code (sqlite.org/rescode.html)."""
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    if code == sqlite3.SQLITE_CONSTRAINT:
        return Refused(str(error))
    kinds = {
        sqlite3.SQLITE_BUSY: Locked,
        sqlite3.SQLITE_LOCKED: Locked,
        sqlite3.SQLITE_FULL: NoRoom,
        sqlite3.SQLITE_CORRUPT: Unreadable,
        sqlite3.SQLITE_NOTADB: Unreadable,
    }
    return kinds.get(code, Faulty)(path, str(error))


class SqliteFailures:
    """What the driver's errors about the file at ``path`` mean."""

    kinds: tuple[type[Exception], ...] = (sqlite3.Error, UnicodeEncodeError, OverflowError)

    def __init__(self, path: Path) -> None:
        self._path = path

    def meaning(self, error: Exception, parameters: object) -> StorageError:
        """As ``storage_error``; what the driver cannot hand over is Unkeepable."""
        if isinstance(error, UnicodeEncodeError):
            return Unkeepable(error.object, "text without lone surrogates")
        if isinstance(error, OverflowError):
            return Unkeepable(parameters, "numbers of at most 64 bits")
        assert isinstance(error, sqlite3.Error)
        return storage_error(self._path, error)


def _prepare(connection: DBAPIConnection, _entry: ConnectionPoolEntry) -> None:
    cursor = connection.cursor()
    for pragma in _PRAGMAS:
        cursor.execute(pragma)
    cursor.close()


def _prepare_to_migrate(connection: DBAPIConnection, entry: ConnectionPoolEntry) -> None:
    # Inside a transaction the switch does nothing, so it is thrown before any begins.
    _prepare(connection, entry)
    cursor = connection.cursor()
    cursor.execute("PRAGMA foreign_keys = OFF")
    cursor.close()


def _begin(failures: SqliteFailures, connection: Connection) -> None:
    driver = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)
    # A deferred transaction that reads first and writes later fails at once when another wrote in between.
    text = "BEGIN" if connection.get_execution_options().get("reads") else "BEGIN IMMEDIATE"
    try:
        # Said by the driver itself: by way of SQLAlchemy it takes a third of an empty transaction's time.
        driver.execute(text)
    except sqlite3.Error as failed:
        raise failures.meaning(failed, None) from failed
