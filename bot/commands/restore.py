"""``weekwright restore FILE``: puts a copy in the database's place; what was there stays beside it."""

from __future__ import annotations

import argparse

from bot.commands.given import settings_given
from bot.faults import CommandError
from storage.backup import restore
from storage.opening import is_server

ON_A_SERVER = (
    "a server's database is not replaced; set WEEKWRIGHT_DATABASE to a file, restore into that, "
    "and move it into an empty database with weekwright move. Nothing was changed"
)


def main(given: argparse.Namespace) -> int:
    """Restores, and says where the file it replaced is kept."""
    settings = settings_given()
    if is_server(settings.database_url):
        raise CommandError(ON_A_SERVER)
    aside = restore(given.file, settings.database_url, settings.backups.key)
    print(f"Restored from {given.file}." + (f" What was there before is kept as {aside}." if aside else ""))
    return 0
