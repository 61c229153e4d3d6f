"""``weekwright import DIR``: an export put into an empty database, which is then as the one it came from."""

from __future__ import annotations

import argparse

from bot.commands.given import settings_given
from bot.exporting.reading import read_exports
from storage.database import Database


def main(given: argparse.Namespace) -> int:
    """Writes all of the export or, where anything in it is wrong, nothing."""
    exports = read_exports(given.folder)
    database = Database(settings_given().database_url)
    try:
        database.hold()
        database.bring_in([each.tables for each in exports])
        for person in database.people.all():
            print(f"{person.address} is here with all that was exported.")
    finally:
        database.close()
    return 0
