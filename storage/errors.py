"""What can go wrong with what is kept. The errors carry data; the words for people are made elsewhere."""

from __future__ import annotations

from pathlib import Path

from storage.records import Entry


class StorageError(Exception):
    """Something about what is kept went wrong."""


class NotThere(StorageError):
    """The person has no such row. ``table`` names the table, ``id`` the row that was asked for."""

    def __init__(self, table: str, id: int | str) -> None:
        super().__init__(f"no row {id} in {table}")
        self.table = table
        self.id = id


class StillUsed(StorageError):
    """The row cannot be removed while others name it."""

    def __init__(self, table: str, id: int) -> None:
        super().__init__(f"row {id} of {table} is still named by others")
        self.table = table
        self.id = id


class NameTaken(StorageError):
    """A name or alias (not in the text, which may end in a log) that the row ``id`` of ``table`` already answers to."""

    def __init__(self, table: str, name: str, id: int) -> None:
        super().__init__(f"{table} row {id} answers to this name already")
        self.table = table
        self.name = name
        self.id = id


class Unkeepable(StorageError):
    """A value that cannot be kept, or a kept one that cannot be read: it is not ``wanted``.

    The value is not in the text, which may end in a log.
    """

    def __init__(self, value: object, wanted: str) -> None:
        super().__init__(f"not {wanted}")
        self.value = value
        self.wanted = wanted


class ChangedSince(StorageError):
    """The entry cannot be undone: its rows, or rows that name them, changed later. Nothing was changed."""

    def __init__(self, entry: Entry) -> None:
        super().__init__(f"the rows of entry {entry.id} changed since")
        self.entry = entry


class AlreadyUndone(StorageError):
    """The entry was undone before. Nothing was changed."""

    def __init__(self, entry: Entry) -> None:
        super().__init__(f"entry {entry.id} is undone already")
        self.entry = entry


class Refused(StorageError):
    """The database refused a row. ``reason`` names the constraint. A unit of work goes on after it only if it was an ``attempt``."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


class FileError(StorageError):
    """Something about the file at ``path``, or the server's database that is named there. ``reason`` is terse and technical."""

    def __init__(self, path: Path | str, reason: str) -> None:
        super().__init__(f"{path}: {reason}")
        self.path = path
        self.reason = reason


class Unreadable(FileError):
    """The file is there and is not a sound database of ours. It was left as it is."""


class TooNew(FileError):
    """The file was written by a newer program, at schema ``revision``. It was left as it is."""

    def __init__(self, path: Path | str, revision: str) -> None:
        super().__init__(path, f"schema revision {revision} is not known here")
        self.revision = revision


class Busy(FileError):
    """Another copy of the program runs on this database."""

    def __init__(self, path: Path | str) -> None:
        super().__init__(path, "another copy runs on it")


class Locked(FileError):
    """Another program kept the database locked for too long; trying again later may do."""


class NoServer(Locked):
    """The server is not there, or does not let us in; trying again later may do."""


class TooOld(FileError):
    """The server is of a ``version`` before the ``oldest`` that will do."""

    def __init__(self, path: str, version: str, oldest: str) -> None:
        super().__init__(path, f"version {version} is older than {oldest}")
        self.version = version
        self.oldest = oldest


class NoRoom(FileError):
    """The disk is full. The transaction was not kept."""


class Faulty(FileError):
    """The database could not be opened, read or written for another reason."""


class AlreadyThere(FileError):
    """A file that would have been overwritten."""

    def __init__(self, path: Path) -> None:
        super().__init__(path, "already there")


class NoKey(FileError):
    """The file is sealed, and no key was given."""

    def __init__(self, path: Path) -> None:
        super().__init__(path, "sealed, and no key is given")


class WrongKey(FileError):
    """The file was sealed with another key."""

    def __init__(self, path: Path) -> None:
        super().__init__(path, "sealed with another key")


class NoSealing(StorageError):
    """Copies cannot be sealed or opened here: the package for it is not installed."""

    def __init__(self) -> None:
        super().__init__("the cryptography package is not installed")


class NoDriver(StorageError):
    """A server cannot be spoken to here: the package for it is not installed."""

    def __init__(self) -> None:
        super().__init__("the psycopg package is not installed")


class Unsupported(StorageError):
    """A database that the program cannot use. ``url`` is without its password."""

    def __init__(self, url: str) -> None:
        super().__init__(f"not a database this program can use: {url}")
        self.url = url


class NotEmpty(StorageError):
    """There are people in the database already. Nothing was written."""


class Malformed(StorageError):
    """The row ``number`` of ``table``, from 1, holds in ``column`` what the program would not have written. Nothing was written."""

    def __init__(self, table: str, number: int, column: str) -> None:
        super().__init__(f"row {number} of {table} holds no {column} of ours")
        self.table = table
        self.number = number
        self.column = column


class Unjournalled(RuntimeError):
    """A mistake in the program: a unit of work ended with changes that no journal entry tells of."""

    def __init__(self, tables: tuple[str, ...]) -> None:
        super().__init__(f"changes without a journal entry: {', '.join(tables)}")
        self.tables = tables
