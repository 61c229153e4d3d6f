"""``weekwright run``: talks over Telegram until it is told to stop.

What is not needed to ask for the first update is loaded after that, so that
a start is quick also on a small machine.
"""

from __future__ import annotations

import argparse
import asyncio
import logging
import signal
import sys
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from bot.commands.given import settings_file, settings_given
from bot.commands.left_out import left_out
from bot.faults import CommandError
from bot.log_lines import log_to_standard_error
from bot.pairing import HOLDS, hashed, new_code
from bot.secrecy import Secrecy
from bot.settings import Settings
from bot.settings_files import is_open_to_others
from bot.settings_run import Address
from storage.database import Database
from storage.opening import is_server, password_in
from storage.records import PairingCode

if TYPE_CHECKING:
    from bot.heard import Heard
    from bot.house import House
    from storage.records import Parcel

NO_TOKEN = (
    "no token: write to @BotFather on Telegram, send /newbot, answer its two questions, "  # nosec B105
    "and start me again with WEEKWRIGHT_TOKEN set to the token it gives you"
)
COMMANDS = (
    ("today", "the day: commitments, tasks, free hours"),
    ("week", "the week by day"),
    ("month", "the month"),
    ("hours", "hours by category"),
    ("goals", "goals of the week and the month"),
    ("picture", "the week as a picture"),
    ("page", "the coming week to print"),
    ("undo", "take back the latest"),
    ("settings", "times, place, categories"),
    ("help", "how to say things"),
    ("export", "all that is kept of you, as files"),
    ("privacy", "what is kept, and how to get or erase it"),
)
ONE_WORKER = "a database in a file is one program's alone; leave run.workers out, or name a database on a server"
HEALTH_SECONDS = 5.0
FIRST_TICK_AFTER = 0.5
"""Seconds by which the first poll goes ahead of the first look at what is due."""

log = logging.getLogger("weekwright.run")


class LateHouse:
    """A house that is joined when something is first heard or falls due."""

    def __init__(self, settings: Settings, database: Database) -> None:
        self._settings = settings
        self._database = database
        self._ticked = False

    @cached_property
    def house(self) -> House:
        """The house."""
        from bot.apart.process import Apart
        from bot.assemble import assemble

        return assemble(self._settings, self._database, _allowed(self._settings), _now, keeping_house=True, apart=Apart())

    def receive(self, heard: Heard) -> None:
        """As ``Engine.receive``."""
        self.house.engine.receive(heard)

    def receive_all(self, heard: Sequence[Heard]) -> None:
        """As ``Engine.receive_all``."""
        self.house.engine.receive_all(heard)

    def set_aside(self, heard: Heard, error: Exception) -> None:
        """As ``Engine.set_aside``."""
        self.house.engine.set_aside(heard, error)

    async def fill(self, parcel: Parcel) -> Parcel:
        """As ``Studio.fill``."""
        return await self.house.studio.fill(parcel)

    async def tick(self) -> int:
        """As ``Alarm.tick``, the first time a moment later, when it is known that nothing keeps the bot from listening."""
        if not self._ticked:
            self._ticked = True
            await asyncio.sleep(FIRST_TICK_AFTER)
            _offer_pairing(self._database, self._settings)
        return await self.house.alarm.tick()


def main(given: argparse.Namespace) -> int:
    """Runs until SIGTERM or SIGINT, then ends with nothing in hand lost."""
    settings = settings_given()
    if given.health:
        return _ask_health(settings.run.health)
    if not settings.telegram.token:
        raise CommandError(NO_TOKEN)
    if settings.run.workers > 1 and not is_server(settings.database_url):
        raise CommandError(ONE_WORKER)
    log_to_standard_error(settings.run.log)
    database = Database(settings.database_url)
    try:
        database.hold(shared=settings.run.webhook is not None)
        Secrecy((settings.telegram.token, settings.backups.key, password_in(settings.database_url))).keep()
        _warn_of_open_settings(settings_file())
        asyncio.run(_talk(LateHouse(settings, database), database, settings, settings.telegram.token))
    finally:
        database.close()
    return 0


def _ask_health(address: Address | None) -> int:
    """Asks the bot that runs whether all goes well, prints its answer, and gives 1 when it does not."""
    if address is None:
        raise CommandError("no health address is set: set run.health, or WEEKWRIGHT_HEALTH, to one such as 127.0.0.1:8090")
    import requests

    try:
        answer = requests.get(f"http://{address}/health", timeout=HEALTH_SECONDS)
    except requests.RequestException as error:
        raise CommandError(f"nothing answers at {address}") from error
    print(answer.text.strip())
    return int(not answer.ok)


def _warn_of_open_settings(path: Path | None) -> None:
    if path is not None and is_open_to_others(path):
        log.warning("others on this machine can read %s; set its mode to 0600", path)


def _now() -> datetime:
    return datetime.now(UTC)


def _allowed(settings: Settings) -> Callable[[str], bool]:
    """Whether an address is one of the allowed Telegram user ids."""
    addresses = {f"telegram:{each}" for each in settings.telegram.allowed}
    return lambda address: address in addresses


def _offer_pairing(database: Database, settings: Settings) -> None:
    """Prints a code at the first start, when no one is allowed by id and no one has paired yet."""
    talking = any(person.address.startswith("telegram:") for person in database.people.all())
    if settings.telegram.allowed or talking:
        return
    code = new_code()
    database.pairing.replace(PairingCode(hashed(code), _now(), _now() + HOLDS, 0))
    print(f"To pair, write this to your bot on Telegram within a day:  /start {code}", file=sys.stderr, flush=True)


async def _talk(late: LateHouse, database: Database, settings: Settings, token: str) -> None:
    # It would be loaded for what Telegram calls passports, 7 MB that no one here shows.
    with left_out("cryptography"):
        from bot.channels.telegram import talk
        from bot.channels.telegram_line import Line
    from bot.rounds.pace import OVERALL, Pace, share_of

    stop = asyncio.Event()
    for each in (signal.SIGTERM, signal.SIGINT):
        asyncio.get_running_loop().add_signal_handler(each, stop.set)
    await talk(
        Line(token, settings.telegram.url),
        late,
        database.outbox,
        late.tick,
        _now,
        stop,
        COMMANDS,
        Pace(overall=share_of(OVERALL, workers)) if (workers := settings.run.workers) > 1 else None,
        settings.run.webhook,
        settings.run.health,
        late.fill,
        shared=database.is_shared,
    )
