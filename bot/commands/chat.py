"""``weekwright chat``: the bot in this terminal."""

from __future__ import annotations

import argparse
import asyncio
import contextlib
import os

from bot.assemble import assemble
from bot.channels.terminal import ADDRESS, Terminal, read_line, utc_now
from bot.commands.given import settings_given
from bot.settings_files import data_folder
from storage.database import Database


def main(given: argparse.Namespace) -> int:
    """Talks until the input ends."""
    settings = settings_given()
    database = Database(settings.database_url)
    try:
        database.hold()
        folder = data_folder(os.environ) if database.is_shared else database.path.parent
        house = assemble(settings, database, lambda address: address == ADDRESS, utc_now, keeping_house=True)
        with contextlib.suppress(ImportError):
            import readline  # noqa: F401  # Gives the prompt line editing and a history.
        asyncio.run(Terminal(house, read_line, print, folder / "files").talk())
    finally:
        database.close()
    return 0
