"""What a process has in hand on a PostgreSQL server: locks by agreement, held by one session for as long as the process lives.

The server gives them up at the moment it sees the session end, so what a
killed worker had in hand is free for the others at once, and never before.
Source: postgresql.org/docs/current/explicit-locking.html#ADVISORY-LOCKS.
"""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from zlib import crc32

from sqlalchemy import Connection, Engine

from storage.errors import Busy, StorageError

HOLD = "program"


class Session:
    """The claims of one process. Should its connection break, they are gone, and a new one begins with none but the hold."""

    shared = True

    def __init__(self, engine: Engine, place: str) -> None:
        self._engine = engine
        self._place = place
        self._connection: Connection | None = None
        self._claimed: set[tuple[str, int]] = set()
        self._hold: str | None = None

    def hold(self, *, shared: bool) -> bool:
        """Whether no other program holds the database, or all that do share it."""
        how = "pg_try_advisory_lock_shared" if shared else "pg_try_advisory_lock"
        held = self._ask(how, HOLD, 0)
        self._hold = how if held else None
        return held

    def claim(self, table: str, id: int) -> bool:
        """Whether the row is in hand now, or was before."""
        if (table, id) not in self._claimed and not self._ask("pg_try_advisory_lock", table, id):
            return False
        self._claimed.add((table, id))
        return True

    def release(self, table: str, ids: Iterable[int]) -> None:
        """Lets go of them, so that others may take them in hand."""
        for id in ids:
            if (table, id) in self._claimed:
                self._ask("pg_advisory_unlock", table, id)
                self._claimed.discard((table, id))

    def close(self) -> None:
        """Gives up all that is in hand, and ends the session."""
        connection = self._connection
        if connection is not None:
            # The server learns of the end of a session a moment after it, and somebody may ask before.
            with suppress(StorageError):
                connection.exec_driver_sql("SELECT pg_advisory_unlock_all()")
        self._forget()

    def _forget(self) -> None:
        connection, self._connection = self._connection, None
        self._claimed.clear()
        if connection is not None:
            # Not back into the pool, where it would live on.
            connection.invalidate()
            connection.close()

    def _ask(self, function: str, table: str, id: int) -> bool:
        connection = self._connection or self._begun()
        try:
            return bool(connection.exec_driver_sql(f"SELECT {function}(%s, %s)", (space(table), id)).scalar())
        except StorageError:
            self._forget()
            raise

    def _begun(self) -> Connection:
        """A new session, which takes up the hold of the one before it. Raises Busy when another has taken it meanwhile."""
        self._connection = self._engine.connect().execution_options(isolation_level="AUTOCOMMIT")
        if self._hold is not None and not self._ask(self._hold, HOLD, 0):
            self._forget()
            raise Busy(self._place)
        return self._connection


def space(table: str) -> int:
    """The number that keeps our locks on rows of this table apart from others of the database; it fits into 32 bits with a sign."""
    return crc32(f"weekwright {table}".encode()) - (1 << 31)
