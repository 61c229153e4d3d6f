"""Keeping a copy, putting one back, and looking for faults.

``copy_to(database, path)`` while it runs; ``restore(path, url)`` while it does
not; ``check(url)`` at any time. With a secret, copies are sealed.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from storage.copying import copy_file, free_name, integrity_faults, sync
from storage.database import Database
from storage.errors import AlreadyThere, FileError, NoKey, StorageError, TooNew, Unreadable
from storage.kind import Kind, Place
from storage.lock import Lock
from storage.opening import is_server, open_kind, sqlite_path
from storage.revision import revision_of
from storage.sealing import is_sealed, prove, seal, unseal


class FaultKind(StrEnum):
    """What can be wrong with a database."""

    MISSING = "missing"
    NOT_OPENED = "not opened"
    UNREADABLE = "unreadable"
    TOO_NEW = "too new"
    DAMAGED = "damaged"
    OPEN_TO_OTHERS = "open to others"
    NOT_REACHED = "not reached"


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of the database at ``path``. ``detail`` is terse and technical."""

    kind: FaultKind
    path: Place
    detail: str


def copy_to(database: Database, path: Path, secret: str | None = None) -> None:
    """Writes a consistent copy with mode 0600, checked and on the disk, sealed with the ``secret`` if there is one.

    Raises AlreadyThere, StorageError.
    """
    if path.exists():
        raise AlreadyThere(path)
    if not database.is_shared:
        copy_sealed_or_plain(database.path, path, secret)
        return
    with _as_file(database, path) as plain:
        copy_sealed_or_plain(plain, path, secret)


@contextmanager
def _as_file(database: Database, beside: Path) -> Iterator[Path]:
    """All of a server's database in a file, which is gone at the end."""
    plain = free_name(beside, "copying")
    copy = Database(f"sqlite:///{plain}")
    try:
        database.copy_into(copy)
        copy.close()
        yield plain
    finally:
        copy.close()
        for ending in ("", "-wal", "-shm"):
            plain.with_name(plain.name + ending).unlink(missing_ok=True)


def copy_sealed_or_plain(source: Path, target: Path, secret: str | None) -> None:
    """As ``copy_to``, from a file. What is to be sealed lies plain for a moment beside the database, never beside the copies."""
    if secret is None:
        copy_file(source, target)
        return
    plain = free_name(source, "sealing")
    copy_file(source, plain)
    try:
        seal(plain, target, secret)
        prove(target, secret)
        sync(target)
    except StorageError:
        # The error under way says why there may be nothing to take away.
        with suppress(OSError):
            target.unlink()
        raise
    finally:
        plain.unlink(missing_ok=True)


@contextmanager
def unsealed(path: Path, beside: Path, secret: str | None) -> Iterator[Path]:
    """The copy at ``path`` as a plain file: itself, or for a sealed one a file beside ``beside`` that is gone at the end.

    Raises NoKey, WrongKey, Unreadable, NoSealing, Faulty.
    """
    if not is_sealed(path):
        yield path
        return
    if secret is None:
        raise NoKey(path)
    plain = free_name(beside, "unsealing")
    try:
        unseal(path, plain, secret)
        yield plain
    finally:
        plain.unlink(missing_ok=True)


def restore(path: Path, url: str, secret: str | None = None) -> Path | None:
    """Puts the copy at ``path`` in the place of the database, whose file is kept beside it under the name given back.

    The copy is looked at first, and nothing is moved unless it is sound. None is given back when there was no database.
    Raises Busy while the program runs on it, Unreadable, TooNew, Faulty or NoRoom; for a sealed copy NoKey or WrongKey.
    """
    target = sqlite_path(url)
    lock = Lock(target)
    try:
        with unsealed(path, target, secret) as plain:
            return _restore(plain, target)
    finally:
        lock.release()


def _restore(plain: Path, target: Path) -> Path | None:
    if revision_of(plain) is None:
        raise Unreadable(plain, "holds no tables")
    fresh = free_name(target, "restoring")
    copy_file(plain, fresh)
    aside = _put_aside(target)
    os.replace(fresh, target)
    return aside


def check(url: str) -> tuple[Fault, ...]:
    """What is wrong with the database; nothing when it is sound. Changes nothing."""
    if is_server(url):
        return _check_server(open_kind(url))
    path = sqlite_path(url)
    try:
        if not path.exists():
            return (Fault(FaultKind.MISSING, path, "no such file"),)
        return (*_exposed(path), *_inside(path))
    except OSError as refused:
        return (Fault(FaultKind.NOT_OPENED, path, refused.strerror or str(refused)),)


def _exposed(path: Path) -> tuple[Fault, ...]:
    mode = path.stat().st_mode & 0o777
    return (Fault(FaultKind.OPEN_TO_OTHERS, path, f"mode {mode:04o}"),) if mode & 0o077 else ()


def _inside(path: Path) -> tuple[Fault, ...]:
    try:
        revision_of(path)
        return tuple(Fault(FaultKind.DAMAGED, path, found) for found in integrity_faults(path))
    except TooNew as newer:
        return (Fault(FaultKind.TOO_NEW, path, newer.revision),)
    except Unreadable as failed:
        return (Fault(FaultKind.UNREADABLE, path, failed.reason),)
    except FileError as failed:
        return (Fault(FaultKind.NOT_OPENED, path, failed.reason),)


def _check_server(kind: Kind) -> tuple[Fault, ...]:
    try:
        if kind.revision() is None:
            return (Fault(FaultKind.MISSING, kind.place, "no tables"),)
    except TooNew as newer:
        return (Fault(FaultKind.TOO_NEW, kind.place, newer.revision),)
    except Unreadable as failed:
        return (Fault(FaultKind.UNREADABLE, kind.place, failed.reason),)
    except FileError as failed:
        return (Fault(FaultKind.NOT_REACHED, kind.place, failed.reason),)
    finally:
        kind.close()
    return ()


def _put_aside(target: Path) -> Path | None:
    """Keeps the database and its log under another name. The log goes first: it must never meet another database."""
    if not target.exists():
        return None
    aside = free_name(target, "before-restoring")
    os.link(target, aside)
    for ending in ("-wal", "-shm"):
        beside = target.with_name(target.name + ending)
        if beside.exists():
            os.replace(beside, aside.with_name(aside.name + ending))
    return aside
