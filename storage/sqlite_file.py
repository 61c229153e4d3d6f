"""A database in a file of its own, which one program has to itself."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from sqlalchemy import Connection

from storage.errors import Refused
from storage.kind import Alone
from storage.lock import Lock
from storage.revision import revision_of
from storage.schema import NUMBERED
from storage.sqlite import SqliteFailures, leave_no_trace, make_private, open_engine


class SqliteFile:
    """The file at ``place``. Made private, and empty, if it is not there; raises Faulty."""

    reading: Mapping[str, Any] = {"reads": True}

    def __init__(self, place: Path) -> None:
        make_private(place)
        self.place = place
        self.engine = open_engine(place)
        self.failures = SqliteFailures(place)
        self.claims = Alone()
        self._lock: Lock | None = None

    def revision(self) -> str | None:
        """As ``revision_of``."""
        return revision_of(self.place)

    def migrate(self, found: str) -> None:
        """Copies the file first."""
        from storage.migrating import migrate

        migrate(self.place, found)

    def define(self, connection: Connection) -> None:
        """Every transaction that writes is the only one."""

    def defer_references(self, connection: Connection) -> None:
        """Until the transaction ends (sqlite.org/pragma.html#pragma_defer_foreign_keys)."""
        connection.exec_driver_sql("PRAGMA defer_foreign_keys = ON")

    def check_references(self, connection: Connection) -> None:
        """Names the first of the tables at fault."""
        dangling = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
        if dangling is not None:
            raise Refused(f"a row of {dangling[0]} names one of {dangling[2]} that is not there")

    def last_numbers(self, connection: Connection) -> Mapping[str, int]:
        """SQLite's own table of them (sqlite.org/autoinc.html)."""
        given = {row.name: int(row.seq) for row in connection.exec_driver_sql("SELECT name, seq FROM sqlite_sequence")}
        return {each.name: given.get(each.name, 0) for each in NUMBERED}

    def number_on(self, connection: Connection, last: Mapping[str, int]) -> None:
        """In the same table, which has a row for those that gave any."""
        for name, number in last.items():
            connection.exec_driver_sql("DELETE FROM sqlite_sequence WHERE name = ?", (name,))
            if number:
                connection.exec_driver_sql("INSERT INTO sqlite_sequence (name, seq) VALUES (?, ?)", (name, number))

    def leave_no_trace(self) -> None:
        """Writes the file anew."""
        leave_no_trace(self.place)

    def hold(self, *, shared: bool) -> None:
        """A file is never shared: what one process knows of it, another would not."""
        self._lock = Lock(self.place)

    def close(self) -> None:
        """Closes the file, too."""
        self.engine.dispose()
        if self._lock is not None:
            self._lock.release()
            self._lock = None
