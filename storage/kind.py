"""What differs between one kind of database and another, behind one set of names. Chosen in ``storage/opening.py``, and nowhere else."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Protocol, TypeAlias

from sqlalchemy import Connection, Engine
from sqlalchemy.engine import ExceptionContext

from storage.errors import StorageError

Place: TypeAlias = Path | str
"""A database's file; or a server's database as text, without its password."""


class Failures(Protocol):
    """What the driver's errors mean."""

    @property
    def kinds(self) -> tuple[type[Exception], ...]:
        """Those that it knows."""

    def meaning(self, error: Exception, parameters: object) -> StorageError:
        """One of ours for one of these kinds; ``parameters`` are what the statement was given."""


def translated(failures: Failures, context: ExceptionContext) -> BaseException | None:
    """The same for SQLAlchemy, of what it runs itself."""
    original = context.original_exception
    if isinstance(original, failures.kinds):
        return failures.meaning(original, context.parameters)
    return original if isinstance(original, StorageError) else None


class Claims(Protocol):
    """Rows that this process has in hand beyond the end of a transaction. When it ends, however it ends, they are free again."""

    @property
    def shared(self) -> bool:
        """Whether other workers may be at work on the same database."""

    def claim(self, table: str, id: int) -> bool:
        """Takes the row in hand; False when another worker has it. Raises StorageError."""

    def release(self, table: str, ids: Iterable[int]) -> None:
        """Lets go of those that are in hand. Raises StorageError."""


class Kind(Protocol):
    """One database, and how its kind does what each kind does in its own way. All of it raises StorageError."""

    @property
    def place(self) -> Place:
        """Where it lies."""

    @property
    def engine(self) -> Engine:
        """What gives connections."""

    @property
    def failures(self) -> Failures:
        """What may go wrong on them."""

    @property
    def claims(self) -> Claims:
        """What is in hand."""

    @property
    def reading(self) -> Mapping[str, Any]:
        """The engine's options for a transaction that reads one moment."""

    def revision(self) -> str | None:
        """The schema's revision, or None when there are no tables yet."""

    def migrate(self, found: str) -> None:
        """Brings the tables from the revision ``found`` to the newest."""

    def define(self, connection: Connection) -> None:
        """Waits until no other process makes tables, and keeps others from it until the transaction ends."""

    def defer_references(self, connection: Connection) -> None:
        """From now on rows may name what is not there yet."""

    def check_references(self, connection: Connection) -> None:
        """Raises Refused when a row names what is not there."""

    def last_numbers(self, connection: Connection) -> Mapping[str, int]:
        """Of each table that numbers its rows itself, the last number that it gave; 0 for none."""

    def number_on(self, connection: Connection, last: Mapping[str, int]) -> None:
        """From now on these tables go on after these numbers."""

    def leave_no_trace(self) -> None:
        """Takes what was deleted out of the file's bytes, as far as that is in our hands."""

    def hold(self, *, shared: bool) -> None:
        """Keeps other copies of the program away until ``close``; with ``shared``, those that do not share. Raises Busy."""

    def close(self) -> None:
        """Gives up the hold and every connection."""


class Alone:
    """The claims of a program that has its database to itself: each is granted."""

    shared = False

    def claim(self, table: str, id: int) -> bool:
        """True."""
        return True

    def release(self, table: str, ids: Iterable[int]) -> None:
        """Nothing is held."""
