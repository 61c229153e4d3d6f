"""``weekwright backup FILE``: a consistent copy, also while the bot runs."""

from __future__ import annotations

import argparse

from bot.commands.given import settings_given
from storage.backup import copy_to
from storage.database import Database


def main(given: argparse.Namespace) -> int:
    """Writes the copy and says where."""
    database = Database(settings_given().database_url)
    try:
        copy_to(database, given.file)
    finally:
        database.close()
    print(f"Copied to {given.file}, checked.")
    return 0
