"""``weekwright chat``: the bot in this terminal."""

from __future__ import annotations

import argparse
import asyncio
import os

from bot.apart.process import Apart
from bot.assemble import assemble
from bot.channels.prompt import Prompt, terminal_as_found
from bot.channels.terminal import ADDRESS, Terminal, utc_now
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
        house = assemble(settings, database, lambda address: address == ADDRESS, utc_now, keeping_house=True, apart=Apart())
        prompt = Prompt()
        with terminal_as_found():
            asyncio.run(Terminal(house, prompt.read_line, prompt.show, folder / "files").talk())
    finally:
        database.close()
    return 0
