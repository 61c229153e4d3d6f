"""``weekwright rehearse``: plays a script, with a database of its own unless one is named."""

from __future__ import annotations

import argparse
import asyncio
import tempfile
from pathlib import Path

from bot.assemble import Now, assemble
from bot.channels.dialogue import Line, as_json, as_words
from bot.channels.rehearsal import Beyond, Rehearsal
from bot.commands.given import settings_given
from bot.faults import CommandError
from bot.house import House
from bot.outside.geocoding import NoGeocoding
from storage.database import Database


def main(given: argparse.Namespace) -> int:
    """Prints the conversation as it is played."""
    if not given.script.is_file():
        raise CommandError(f"{given.script} is not a file")
    if given.files:
        given.files.mkdir(parents=True, exist_ok=True)
    form = as_json if given.json else as_words

    def write(line: Line) -> None:
        print(form(line), flush=True)

    with tempfile.TemporaryDirectory(prefix="weekwright-") as folder:
        url = given.database or f"sqlite:///{Path(folder) / 'rehearsal.sqlite'}"
        settings = settings_given(given.settings)

        def open_house(now: Now, beyond: Beyond) -> House:
            return assemble(settings, Database(url), lambda _: True, now, beyond.forecasts, NoGeocoding(), beyond.links, None)

        rehearsal = Rehearsal(open_house, settings.person.zone, write, given.files)
        try:
            asyncio.run(rehearsal.play(given.script))
        finally:
            rehearsal.close()
    return 0
