"""``weekwright check``: settings, database, backups, disk and reachability in words."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from datetime import UTC, datetime

from bot.checking.finding import Finding
from bot.checking.kept import backup_findings, database_findings, disk_findings, message_findings, settings_findings
from bot.checking.reached import service_findings, telegram_findings
from bot.commands.given import settings_file, settings_given


def main(given: argparse.Namespace) -> int:
    """Prints a line about each thing as it is looked at; gives 1 when one is at fault."""
    at_fault = False
    for finding in _findings():
        print(finding.words, flush=True)
        at_fault |= finding.at_fault
    return int(at_fault)


def _findings() -> Iterator[Finding]:
    settings = settings_given()
    yield from settings_findings(settings_file())
    yield from database_findings(settings)
    yield from disk_findings(settings)
    yield from backup_findings(settings, datetime.now(UTC).date())
    yield from message_findings(settings)
    yield from telegram_findings(settings)
    yield from service_findings(settings)
