"""``weekwright chat``: the bot in this terminal."""

from __future__ import annotations

import argparse
import asyncio
import contextlib

from bot.assemble import assemble
from bot.channels.terminal import ADDRESS, Terminal, read_line, utc_now
from bot.commands.given import settings_given
from storage.database import Database


def main(given: argparse.Namespace) -> int:
    """Talks until the input ends."""
    settings = settings_given()
    database = Database(settings.database_url)
    try:
        database.hold()
        house = assemble(settings, database, lambda address: address == ADDRESS, utc_now, keeping_house=True)
        with contextlib.suppress(ImportError):
            import readline  # noqa: F401  # Gives the prompt line editing and a history.
        asyncio.run(Terminal(house, read_line, print, database.path.parent / "files").talk())
    finally:
        database.close()
    return 0
