"""The two ways to talk to the database: to read one moment of it, or to change it alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any, Protocol

import sqlalchemy
from sqlalchemy import Engine

from storage.errors import StorageError
from storage.statements import Statement, Statements

_NOTHING: Mapping[str, Any] = {}


class Failures(Protocol):
    """What the driver's errors mean."""

    kinds: tuple[type[Exception], ...]

    def meaning(self, error: Exception, parameters: object) -> StorageError:
        """One of ours for one of these kinds; ``parameters`` are what the statement was given."""


class Found:
    """What a statement gave: its rows, and how many rows it wrote."""

    __slots__ = ("rowcount", "rows")

    def __init__(self, rows: Sequence[tuple[Any, ...]], rowcount: int) -> None:
        self.rows = rows
        self.rowcount = rowcount

    def __iter__(self) -> Iterator[tuple[Any, ...]]:
        return iter(self.rows)

    def first(self) -> tuple[Any, ...] | None:
        """The first row, or None."""
        return self.rows[0] if self.rows else None

    def scalar(self) -> Any:
        """The first value of the first row, or None."""
        return self.rows[0][0] if self.rows else None


class Connection:
    """One transaction. Statements are said with Core, and run by the driver itself as text that was compiled once."""

    def __init__(self, inner: sqlalchemy.Connection, statements: Statements, failures: Failures) -> None:
        self._driver = inner.connection
        self._statements = statements
        self._failures = failures
        self._depth = 0

    def execute(self, statement: Statement, given: Mapping[str, Any] = _NOTHING) -> Found:
        """Runs the statement with the given values. Raises StorageError."""
        compiled = self._statements.compiled(statement, given)
        raw = compiled.raw(given)
        cursor = self._driver.cursor()
        try:
            cursor.execute(compiled.text, raw)
            rows = cursor.fetchall() if cursor.description else ()
        except self._failures.kinds as failed:
            raise self._failures.meaning(failed, raw) from failed
        finally:
            cursor.close()
        return Found([compiled.row(row) for row in rows], cursor.rowcount)

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
    """Hands out transactions. One that writes has the database to itself until it ends."""

    def __init__(self, engine: Engine, failures: Failures) -> None:
        self._engine = engine
        self._reader = engine.execution_options(reads=True)
        self._statements = Statements(engine.dialect)
        self._failures = failures

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that commits at the end and is rolled back on any exception. Raises StorageError."""
        with self._engine.begin() as inner:
            yield Connection(inner, self._statements, self._failures)

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A view of one moment; it waits for no writer and keeps none waiting. Raises StorageError."""
        with self._reader.connect() as inner, inner.begin():
            yield Connection(inner, self._statements, self._failures)

    @contextmanager
    def defining(self) -> Iterator[sqlalchemy.Connection]:
        """As ``writing``, for SQLAlchemy itself: it makes tables. Raises StorageError."""
        with self._engine.begin() as inner:
            yield inner
