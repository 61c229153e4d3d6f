"""``weekwright move URL``: all of the database into an empty one, of whatever kind each is."""

from __future__ import annotations

import argparse

from bot.commands.given import demand_database, settings_given
from bot.faults import CommandError
from storage.database import Database
from storage.opening import is_the_same


def main(given: argparse.Namespace) -> int:
    """Copies it whole or not at all, and says how much it was. What it came from stays as it is."""
    url = demand_database(settings_given().database_url)
    if is_the_same(url, given.url):
        raise CommandError("that is the database that it would be copied from; name another")
    source = Database(url)
    try:
        source.hold()
        target = Database(given.url)
        try:
            target.hold()
            copied = source.copy_into(target)
        finally:
            target.close()
    finally:
        source.close()
    people = copied["people"]
    print(f"Copied and compared: {sum(copied.values())} rows, with {people} {'person' if people == 1 else 'people'}.")
    print("The database it came from is as it was. Set WEEKWRIGHT_DATABASE, or database.url in the settings, to the new one.")
    return 0
