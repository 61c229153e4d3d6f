"""``weekwright export DIR``: everything of everyone as open files, one folder a person."""

from __future__ import annotations

import argparse
from datetime import UTC, datetime

from bot.commands.given import demand_database, settings_given
from bot.exporting.files import open_files
from bot.faults import CommandError
from bot.private_files import write_privately
from storage.database import Database


def main(given: argparse.Namespace) -> int:
    """Writes the files, which only their owner can read, and says where."""
    database = Database(demand_database(settings_given().database_url))
    try:
        people = database.people.all()
        if not people:
            print("There is nobody to export yet.")
        before = sorted(given.folder.glob("person-*"))
        if before:
            raise CommandError(f"{before[0]} is there already, from another export; name a folder that is empty or new")
        for person in people:
            folder = given.folder / f"person-{person.id}"
            with database.look(person.id, datetime.now(UTC)) as desk:
                files = open_files(desk)
            for each in files:
                write_privately(folder / each.name, each.content)
            print(f"{person.address}: {folder}")
    finally:
        database.close()
    return 0
