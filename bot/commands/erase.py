"""``weekwright erase PERSON``: removes a person for good."""

from __future__ import annotations

import argparse
from datetime import UTC, datetime

from bot.commands.given import demand_database, settings_given
from bot.faults import CommandError
from storage.database import Database

OF_A_FILE = "The daily backups follow at their next round; copies made by hand or before an update do not."
OF_A_SERVER = "Backups of the server do not follow; see to them."


def main(given: argparse.Namespace) -> int:
    """Erases the person with that address, such as ``telegram:4711``, or that number."""
    database = Database(demand_database(settings_given().database_url))
    try:
        everyone = database.people.all()
        person = next((each for each in everyone if given.person in (each.address, str(each.id))), None)
        if person is None:
            known = ", ".join(each.address for each in everyone) or "nobody"
            raise CommandError(f"there is no {given.person}; I know {known}")
        database.everything.erase(person.id, datetime.now(UTC))
    finally:
        database.close()
    print(f"{person.address} is erased. {OF_A_SERVER if database.is_shared else OF_A_FILE}")
    return 0
