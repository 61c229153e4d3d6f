"""What is kept here, looked at without changing any of it: settings, database, backups, disk, messages given up."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from bot.checking.finding import Finding
from bot.settings import Settings
from bot.settings_files import is_open_to_others
from storage.aside import parcels_set_aside
from storage.backup import FaultKind, check
from storage.backup_folder import BackupFolder, DailyCopy
from storage.errors import NoKey, NoSealing, StorageError, WrongKey
from storage.opening import is_server, sqlite_path

OLDEST_DAYS = 2
"""A latest backup of more days than these means that none is made any more."""

LEAST_FREE_BYTES = 100 * 1000 * 1000
COPIES_IN_HAND = 3
"""How often the database must fit into what is free: a backup being made is there once or twice more, and the log grows."""

PASSING_COPIES = ("sealing", "unsealing", "forgetting", "restoring")
WORDS = {
    FaultKind.MISSING: "there is none yet; it is made at the first start",
    FaultKind.NOT_OPENED: "I cannot open it; it may belong to another user, or another program may keep it",
    FaultKind.UNREADABLE: "it is not a readable database; restore a backup",
    FaultKind.TOO_NEW: "it was written by a newer version",
    FaultKind.DAMAGED: "it is damaged; restore a backup",
    FaultKind.NOT_REACHED: "its server does not let me in",
    FaultKind.OPEN_TO_OTHERS: "others on this machine can read it; set its mode to 0600",
}


def settings_findings(path: Path | None) -> Iterator[Finding]:
    """Whether the settings file is in order, which it is once it was read, and its owner's alone."""
    yield Finding(f"Settings: in order, from {path}." if path else "Settings: the sample ones; there is no file of your own.")
    if path is not None and is_open_to_others(path):
        yield Finding(f"Settings: others on this machine can read {path}; set its mode to 0600.")


def database_findings(settings: Settings) -> Iterator[Finding]:
    """Whether the database is sound, private, and of a version known here."""
    faults = check(settings.database_url)
    for fault in faults:
        yield Finding(f"Database {fault.path}: {WORDS[fault.kind]} ({fault.detail}).", fault.kind is not FaultKind.MISSING)
    if not faults:
        yield Finding("Database: sound.")


def disk_findings(settings: Settings) -> Iterator[Finding]:
    """Whether there is room for the database to grow and to be copied; a server's disk cannot be seen from here."""
    if is_server(settings.database_url):
        return
    path = sqlite_path(settings.database_url)
    # In a folder that this user may not enter nothing can be seen, and that is told where the database is looked at.
    folder = next(each for each in path.parents if os.path.exists(each))
    free = shutil.disk_usage(folder).free
    least = max(LEAST_FREE_BYTES, COPIES_IN_HAND * path.stat().st_size if os.path.exists(path) else 0)
    if free < least:
        yield Finding(f"Disk: only {free // 1_000_000} MB are free where the database lies; make room.", at_fault=True)
    else:
        yield Finding(f"Disk: {free // 1_000_000} MB free.")


def backup_findings(settings: Settings, today: date) -> Iterator[Finding]:
    """Whether there is a recent and sound backup, and whether the next one can be made."""
    own = settings.backups
    if is_server(settings.database_url):
        yield Finding("Backups: a server's database is not copied every day by me; see to its own backups.")
        return
    source = sqlite_path(settings.database_url)
    if not own.rotation.daily:
        yield Finding("Backups: turned off in the settings.")
        return
    if not os.path.exists(source):
        return
    folder = BackupFolder(source, own.folder, own.key)
    yield from _left_behind(source)
    try:
        yield from _latest(folder, today)
        folder.try_out()
    except StorageError as error:
        yield Finding(f"Backups: none can be made in {folder.folder} ({_reason(error)}).", at_fault=True)


def _left_behind(source: Path) -> Iterator[Finding]:
    """Plain copies that were to be gone at the end of what made them."""
    for path in sorted(each for what in PASSING_COPIES for each in source.parent.glob(f"{source.name}.{what}*")):
        yield Finding(f"Backups: {path} was left behind when something broke off; take it away, unless a copy is being made just now.")


def _latest(folder: BackupFolder, today: date) -> Iterator[Finding]:
    copies = [copy for copy in folder.copies() if copy.day <= today]
    if not copies:
        yield Finding("Backups: none yet; the first is made as soon as the bot runs.")
        return
    latest = copies[-1]
    age = (today - latest.day).days
    old = f", and that is {age} days ago: does the bot run?" if age > OLDEST_DAYS else "."
    yield Finding(f"Backups: {len(copies)} in {folder.folder}, the latest of {latest.day.isoformat()}{old}", age > OLDEST_DAYS)
    yield _soundness(folder, latest)


def _soundness(folder: BackupFolder, latest: DailyCopy) -> Finding:
    try:
        faults = folder.faults_of(latest)
    except StorageError as error:
        return Finding(f"Backups: {latest.path} could not be looked into ({_reason(error)}).", at_fault=True)
    if faults:
        return Finding(f"Backups: {latest.path} is damaged ({faults[0]}).", at_fault=True)
    return Finding("Backups: the latest is sound.")


def _reason(error: StorageError) -> str:
    known = {
        NoKey: "it is sealed, and WEEKWRIGHT_BACKUP_KEY is not set",
        WrongKey: "it was sealed with another key than the one in WEEKWRIGHT_BACKUP_KEY",
        NoSealing: "the package that seals is missing: pip install 'weekwright[encryption]'",
    }
    return known.get(type(error), str(error))


def message_findings(settings: Settings) -> Iterator[Finding]:
    """The messages that the chat service would not take; their text is not shown."""
    try:
        aside = parcels_set_aside(settings.database_url)
    except StorageError:
        # Why the database cannot be read is told where it is looked at.
        return
    if aside:
        latest = aside[0]
        yield Finding(
            f"Messages: {len(aside)} could not be delivered and were set aside, "
            f"the latest, number {latest.id}, on {latest.written.date().isoformat()}: {latest.reason}."
        )
    else:
        yield Finding("Messages: none was set aside.")
