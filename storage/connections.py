"""The two ways to talk to the database: to read one moment of it, or to change it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

import sqlalchemy

from storage.kind import Failures, Kind
from storage.statements import Statement, Statements
from storage.types import Row

_NOTHING: Mapping[str, Any] = {}


class Found:
    """What a statement gave: its rows, the same in their raw forms, and how many rows it wrote."""

    __slots__ = ("raw", "rowcount", "rows")

    def __init__(self, rows: Sequence[Row], raw: Sequence[Row], rowcount: int) -> None:
        self.rows = rows
        self.raw = raw
        self.rowcount = rowcount

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows)

    def first(self) -> Row | None:
        """The first row, or None."""
        return self.rows[0] if self.rows else None

    def scalar(self) -> Any:
        """The first value of the first row, or None."""
        return self.rows[0][0] if self.rows else None


class Connection:
    """One transaction. Statements are said with Core, and run by the driver itself as text that was compiled once.

    ``writes`` says whether it may change anything, ``put_back`` how often something was put back in it.
    """

    def __init__(self, inner: sqlalchemy.Connection, statements: Statements, failures: Failures, *, writes: bool) -> None:
        self.writes = writes
        self.put_back = 0
        self._driver: Any = inner.connection.driver_connection
        self._statements = statements
        self._failures = failures
        self._depth = 0

    def execute(self, statement: Statement, given: Mapping[str, Any] = _NOTHING) -> Found:
        """Runs the statement with the given values. Raises StorageError."""
        compiled = self._statements.compiled(statement, given)
        raw = compiled.raw(given)
        try:
            cursor = self._driver.execute(compiled.text, raw)
            rows = cursor.fetchall() if cursor.description else ()
        except self._failures.kinds as failed:
            raise self._failures.meaning(failed, raw) from failed
        return Found(compiled.rows(rows), rows, cursor.rowcount)

    def execute_each(self, statement: Statement, given: Sequence[Mapping[str, Any]]) -> None:
        """Runs a statement that gives no rows once for each of the given values, which all have the same names. Raises StorageError."""
        compiled = self._statements.compiled(statement, given[0])
        raw = [compiled.raw(each) for each in given]
        cursor = self._driver.cursor()
        try:
            cursor.executemany(compiled.text, raw)
        except self._failures.kinds as failed:
            raise self._failures.meaning(failed, raw) from failed
        finally:
            cursor.close()

    @contextmanager
    def begin_nested(self) -> Iterator[None]:
        """On any exception, everything done since the block began is put back, and the transaction goes on without it."""
        self._depth += 1
        name, kept = f"nested_{self._depth}", False
        self._say(f"SAVEPOINT {name}")
        try:
            yield
            kept = True
        finally:
            self._depth -= 1
            # On a full disk SQLite ends the whole transaction by itself, its savepoints too: sqlite.org/lang_transaction.html, section 3.
            if kept or getattr(self._driver, "in_transaction", True):
                if not kept:
                    self.put_back += 1
                    self._say(f"ROLLBACK TO SAVEPOINT {name}")
                self._say(f"RELEASE SAVEPOINT {name}")

    def _say(self, text: str) -> None:
        cursor = self._driver.cursor()
        try:
            cursor.execute(text)
        except self._failures.kinds as failed:
            raise self._failures.meaning(failed, None) from failed
        finally:
            cursor.close()


class Connections:
    """Hands out transactions. One that writes has a file to itself until it ends; on a server it has the people whose desks it opened."""

    def __init__(self, kind: Kind) -> None:
        self._kind = kind
        self._engine = kind.engine
        self._reader = kind.engine.execution_options(**kind.reading)
        self._statements = Statements(kind.engine.dialect)
        self._failures = kind.failures

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that commits at the end and is rolled back on any exception. Raises StorageError."""
        with self._engine.begin() as inner:
            yield Connection(inner, self._statements, self._failures, writes=True)

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A view of one moment; it waits for no writer and keeps none waiting. Raises StorageError."""
        with self._reader.connect() as inner, inner.begin():
            yield Connection(inner, self._statements, self._failures, writes=False)

    @contextmanager
    def viewing(self) -> Iterator[sqlalchemy.Connection]:
        """As ``reading``, for SQLAlchemy itself: it goes through tables that may be long. Raises StorageError."""
        with self._reader.connect() as inner, inner.begin():
            yield inner

    @contextmanager
    def defining(self) -> Iterator[sqlalchemy.Connection]:
        """As ``writing``, for SQLAlchemy itself: it makes tables, and only one process does so at a time. Raises StorageError."""
        with self._engine.begin() as inner:
            self._kind.define(inner)
            yield inner
