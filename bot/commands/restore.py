"""``weekwright restore FILE``: puts a copy in the database's place; what was there stays beside it."""

from __future__ import annotations

import argparse

from bot.commands.given import settings_given
from storage.backup import restore


def main(given: argparse.Namespace) -> int:
    """Restores, and says where the file it replaced is kept."""
    settings = settings_given()
    aside = restore(given.file, settings.database_url, settings.backups.key)
    print(f"Restored from {given.file}." + (f" What was there before is kept as {aside}." if aside else ""))
    return 0
