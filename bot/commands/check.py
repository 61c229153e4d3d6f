"""``weekwright check``: settings, database and reachability in words."""

from __future__ import annotations

import argparse
from datetime import UTC, datetime, timedelta

from bot.commands.given import settings_given
from bot.outside.faults import OutsideError
from bot.outside.forecast import OpenMeteo
from bot.settings import Settings
from storage.backup import FaultKind, check
from storage.set_aside import undelivered

WORDS = {
    FaultKind.MISSING: "there is none yet; it is made at the first start",
    FaultKind.UNREADABLE: "it is not a readable database; restore a backup",
    FaultKind.TOO_NEW: "it was written by a newer version",
    FaultKind.DAMAGED: "it is damaged; restore a backup",
    FaultKind.OPEN_TO_OTHERS: "others on this machine can read it; set its mode to 0600",
}


LATELY, SOON = timedelta(days=7), timedelta(hours=1)


def main(given: argparse.Namespace) -> int:
    """Prints one line a thing looked at; gives 1 when one is at fault."""
    settings = settings_given()
    print("Settings: in order.")
    print("Token: set." if settings.telegram.token else "Token: none, so only chat and rehearse work.")
    return max(_database(settings), _forecast(settings))


def _post(settings: Settings, now: datetime) -> None:
    """What could not be delivered. It is told and is no fault of the program's: nothing can be done about it here."""
    found = undelivered(settings.database_url, now - LATELY, now - SOON)
    if found.newest_written is not None:
        newest = f"the newest, written {found.newest_written:%Y-%m-%d %H:%M} UTC: {found.newest_reason}"
        print(f"Messages: {found.aside} of the last week could not be delivered and were set aside ({newest}).")
    if found.waiting:
        print(f"Messages: {found.waiting} have waited for more than an hour to be sent.")
    if not found.aside and not found.waiting:
        print("Messages: all delivered.")


def _database(settings: Settings) -> int:
    faults = check(settings.database_url)
    for fault in faults:
        print(f"Database {fault.path}: {WORDS[fault.kind]} ({fault.detail}).")
    if not faults:
        print("Database: sound.")
        _post(settings, datetime.now(UTC))
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
