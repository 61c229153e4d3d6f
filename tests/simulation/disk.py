"""The disk: a real SQLite file, opened as ever, whose transactions the seed may break off at each of their steps."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

from sqlalchemy import Connection, Engine

from storage.connections import Connections
from storage.errors import Locked, NoRoom
from tests.simulation.fate import Fate

NOWHERE = Path("simulated")


class ShakyDisk(Connections):
    """Transactions that may fail to begin or to be kept, and a process that may die before or after each of these.

    ``kept`` is called after every transaction that was kept, with whether it noted a delivery as handled.
    """

    def __init__(self, engine: Engine, fate: Fate, kept: Callable[[bool], None]) -> None:
        super().__init__(_compiled_before(engine))
        self._fate = fate
        self._kept = kept

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        if self._fate.of("begin") == "locked":
            raise Locked(NOWHERE, "another program writes")
        with super().writing() as connection:
            before = _handled(connection)
            yield connection
            noted = _handled(connection) > before
            if self._fate.of("commit") == "full":
                raise NoRoom(NOWHERE, "the disk is full")
        self._kept(noted)
        self._fate.of("committed")

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        if self._fate.of("read") == "locked":
            raise Locked(NOWHERE, "another program writes")
        with super().reading() as connection:
            yield connection


@cache
def _engines() -> dict[str, Engine]:
    return {}


def _compiled_before(engine: Engine) -> Engine:
    """The engine of an earlier life on this file, without its connections: it knows every statement by now, which saves most of a start."""
    known = _engines().setdefault(str(engine.url), engine)
    known.dispose()
    return known


def _handled(connection: Connection) -> int:
    number: int = connection.exec_driver_sql("SELECT count(*) FROM handled").scalar_one()
    return number
