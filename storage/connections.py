"""The two ways to talk to the database: to read one moment of it, or to change it alone."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, CursorResult, Engine


def new_row_id(result: CursorResult[*tuple[Any, ...]]) -> int:
    """The id that the database gave to the one row just inserted."""
    key = result.inserted_primary_key
    assert key is not None
    id: int = key[0]
    return id


class Connections:
    """Hands out transactions. One that writes has the database to itself until it ends."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._reader = engine.execution_options(reads=True)

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that commits at the end and is rolled back on any exception. Raises StorageError."""
        with self._engine.begin() as connection:
            yield connection

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A view of one moment; it waits for no writer and keeps none waiting. Raises StorageError."""
        with self._reader.connect() as connection:
            yield connection
