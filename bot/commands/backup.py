"""``weekwright backup FILE``: a consistent copy, also while the bot runs."""

from __future__ import annotations

import argparse

from bot.commands.given import demand_database, settings_given
from storage.backup import copy_to
from storage.database import Database


def main(given: argparse.Namespace) -> int:
    """Writes the copy and says where."""
    settings = settings_given()
    database = Database(demand_database(settings.database_url))
    try:
        copy_to(database, given.file, settings.backups.key)
    finally:
        database.close()
    print(f"Copied to {given.file}, checked{' and sealed' if settings.backups.key else ''}.")
    return 0
