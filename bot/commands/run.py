"""``weekwright run``: talks over Telegram until it is told to stop."""

from __future__ import annotations

import argparse
import asyncio
import logging
import secrets
import signal
import sys
from collections.abc import Callable
from datetime import UTC, datetime

from bot.assemble import assemble
from bot.commands.given import settings_given
from bot.door import CODE_HOLDS, hashed
from bot.faults import CommandError
from bot.house import House
from bot.settings import Settings
from storage.database import Database
from storage.records import PairingCode

NO_TOKEN = (
    "no token: write to @BotFather on Telegram, send /newbot, answer its two questions, "
    "and start me again with WEEKWRIGHT_TOKEN set to the token it gives you"
)
ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
CODE_LENGTH = 8

COMMANDS = (
    ("today", "the day: commitments, tasks, free hours"),
    ("week", "the week by day"),
    ("month", "the month"),
    ("hours", "hours by category"),
    ("goals", "goals of the week and the month"),
    ("undo", "take back the latest"),
    ("settings", "times, place, categories"),
    ("help", "how to say things"),
    ("privacy", "what is kept, and how to get or erase it"),
)


def main(given: argparse.Namespace) -> int:
    """Runs until SIGTERM or SIGINT, then ends with nothing in hand lost."""
    settings = settings_given()
    if not settings.telegram.token:
        raise CommandError(NO_TOKEN)
    logging.basicConfig(stream=sys.stderr, level=logging.INFO, format="%(asctime)s %(levelname)s %(name)s %(message)s")
    database = Database(settings.database_url)
    try:
        database.hold()
        house = assemble(settings, database, _allowed(settings), _now)
        _offer_pairing(house, settings)
        asyncio.run(_talk(house, settings, settings.telegram.token))
    finally:
        database.close()
    return 0


def _now() -> datetime:
    return datetime.now(UTC)


def _allowed(settings: Settings) -> Callable[[str], bool]:
    """Whether an address is one of the allowed Telegram user ids."""
    addresses = {f"telegram:{each}" for each in settings.telegram.allowed}
    return lambda address: address in addresses


def _offer_pairing(house: House, settings: Settings) -> None:
    """Prints a code at the first start, when no one is allowed by id and no one has paired yet."""
    talking = any(person.address.startswith("telegram:") for person in house.database.people.all())
    if settings.telegram.allowed or talking:
        return
    code = "".join(secrets.choice(ALPHABET) for _ in range(CODE_LENGTH))
    house.database.pairing.replace(PairingCode(hashed(code), _now(), _now() + CODE_HOLDS, 0))
    print(f"To pair, write this to your bot on Telegram within a day:  /start {code}", file=sys.stderr, flush=True)


async def _talk(house: House, settings: Settings, token: str) -> None:
    from bot.channels.telegram import talk
    from bot.channels.telegram_line import Line

    stop = asyncio.Event()
    for each in (signal.SIGTERM, signal.SIGINT):
        asyncio.get_running_loop().add_signal_handler(each, stop.set)
    line = Line(token, settings.telegram.url)
    await talk(line, house.engine, house.database.outbox, house.alarm.tick, _now, stop, COMMANDS)
