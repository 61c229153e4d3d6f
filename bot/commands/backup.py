"""``weekwright backup FILE``: a consistent copy, also while the bot runs."""

from __future__ import annotations

import argparse

from bot.commands.given import settings_given
from bot.faults import CommandError
from storage.backup import copy_to
from storage.database import Database
from storage.opening import sqlite_path


def main(given: argparse.Namespace) -> int:
    """Writes the copy and says where."""
    settings = settings_given()
    url = settings.database_url
    if not sqlite_path(url).exists():
        raise CommandError("there is no database yet, so there is nothing to copy")
    database = Database(url)
    try:
        copy_to(database, given.file, settings.backups.key)
    finally:
        database.close()
    print(f"Copied to {given.file}, checked{' and sealed' if settings.backups.key else ''}.")
    return 0
