"""The disk: a real SQLite file, opened as ever, whose transactions the seed may break off at each of their steps."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

from storage.connections import Connection, Connections
from storage.errors import Locked, NoRoom
from storage.kind import Kind
from storage.statements import Statements
from tests.simulation.fate import Fate

NOWHERE = Path("simulated")


class ShakyDisk(Connections):
    """Transactions that may fail to begin or to be kept, and a process that may die before or after each of these.

    ``kept`` is called after every transaction that was kept.
    """

    def __init__(self, kind: Kind, fate: Fate, kept: Callable[[], None]) -> None:
        super().__init__(kind)
        # What was compiled in an earlier life serves this one: that saves most of a start.
        self._statements = _compiled_before(self._statements)
        self._fate = fate
        self._kept = kept

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        if self._fate.of("begin") == "locked":
            raise Locked(NOWHERE, "another program writes")
        with super().writing() as connection:
            yield connection
            if self._fate.of("commit") == "full":
                raise NoRoom(NOWHERE, "the disk is full")
        self._kept()
        self._fate.of("committed")

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        if self._fate.of("read") == "locked":
            raise Locked(NOWHERE, "another program writes")
        with super().reading() as connection:
            yield connection


@cache
def _kept_statements() -> list[Statements]:
    return []


def _compiled_before(fresh: Statements) -> Statements:
    if not _kept_statements():
        _kept_statements().append(fresh)
    return _kept_statements()[0]
