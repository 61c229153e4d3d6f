"""``weekwright check``: settings, database and reachability in words."""

from __future__ import annotations

import argparse

from bot.commands.given import settings_given
from bot.outside.faults import OutsideError
from bot.outside.forecast import OpenMeteo
from bot.settings import Settings
from storage.backup import FaultKind, check

WORDS = {
    FaultKind.MISSING: "there is none yet; it is made at the first start",
    FaultKind.UNREADABLE: "it is not a readable database; restore a backup",
    FaultKind.TOO_NEW: "it was written by a newer version",
    FaultKind.DAMAGED: "it is damaged; restore a backup",
    FaultKind.OPEN_TO_OTHERS: "others on this machine can read it; set its mode to 0600",
}


def main(given: argparse.Namespace) -> int:
    """Prints one line a thing looked at; gives 1 when one is at fault."""
    settings = settings_given()
    print("Settings: in order.")
    print("Token: set." if settings.telegram.token else "Token: none, so only chat and rehearse work.")
    return max(_database(settings), _forecast(settings))


def _database(settings: Settings) -> int:
    faults = check(settings.database_url)
    for fault in faults:
        print(f"Database {fault.path}: {WORDS[fault.kind]} ({fault.detail}).")
    if not faults:
        print("Database: sound.")
    return int(any(fault.kind is not FaultKind.MISSING for fault in faults))


def _forecast(settings: Settings) -> int:
    """Asks for a forecast of a place that is nobody's: 0 degrees north and east."""
    try:
        OpenMeteo(settings.outside.forecast_url).fetch(0.0, 0.0)
    except OutsideError as error:
        print(f"Forecast service: no answer ({error.fault}).")
        return 1
    print("Forecast service: answers.")
    return 0
