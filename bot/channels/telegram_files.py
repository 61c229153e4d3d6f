"""Files that people send, fetched from Telegram. At most 20 MB: https://core.telegram.org/bots/faq"""

from __future__ import annotations

import asyncio
import logging
from dataclasses import replace
from itertools import islice

from telegram import Bot
from telegram.error import BadRequest, InvalidToken, TelegramError

from bot.channels.telegram_updates import FileOffer
from bot.heard import SentFile
from bot.rounds.steadily import Sleep, pauses

log = logging.getLogger("weekwright.telegram")

MOST_FILE_BYTES = 20 * 1024 * 1024
DOWNLOAD_SECONDS = 60
TRIES = 3


async def fetched(bot: Bot, offer: FileOffer, sleep: Sleep = asyncio.sleep) -> SentFile:
    """The file with its content, which is empty when the file is too large or cannot be had."""
    if offer.size is not None and offer.size > MOST_FILE_BYTES:
        return offer.as_heard
    for wait in islice(pauses(), TRIES):
        try:
            return replace(offer.as_heard, content=await _download(bot, offer.file_id))
        except TelegramError as error:
            log.warning("file of %s not fetched: %s", offer.as_heard.key, type(error).__name__)
            if isinstance(error, (BadRequest, InvalidToken)):
                break
            await sleep(wait)
    return offer.as_heard


async def _download(bot: Bot, file_id: str) -> bytes:
    file = await bot.get_file(file_id)
    return bytes(await file.download_as_bytearray(read_timeout=DOWNLOAD_SECONDS))
