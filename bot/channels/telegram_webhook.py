"""The webhook: Telegram calls with each update, and is answered 200 only once the engine has committed it.

Anything but 2xx, and an answer that never comes, makes Telegram call again
(core.telegram.org/bots/webhooks), so a crash at any moment loses nothing; an
update that was committed all the same is known by its key.
"""

from __future__ import annotations

import asyncio
import hashlib
import hmac
import json
import logging
from typing import Final
from urllib.parse import urlsplit

from telegram import Bot
from telegram.error import InvalidToken
from tornado.web import RequestHandler

from bot.channels.http_server import served
from bot.channels.telegram_errors import BadToken
from bot.channels.telegram_listener import Hear
from bot.channels.telegram_updates import WANTED, Json
from bot.rounds.steadily import failure_of, pauses
from bot.settings_run import WebhookSettings

log = logging.getLogger("weekwright.telegram")

SECRET_HEADER: Final = "X-Telegram-Bot-Api-Secret-Token"
LARGEST_UPDATE: Final = 1 << 20
"""Bytes; a text of 4,096 characters with all its entities and a quoted message stay well below."""


async def answer_calls(bot: Bot, hear: Hear, webhook: WebhookSettings) -> None:
    """Hears what Telegram calls with, for ever. Raises BadToken, and OSError when the address is taken."""
    secret = secret_of(bot.token)
    path = urlsplit(webhook.url).path or "/"
    async with served(webhook.listen, [(path, _Update, {"hear": hear, "secret": secret})], LARGEST_UPDATE):
        await _register(bot, webhook.url, secret)
        await asyncio.Event().wait()


def secret_of(token: str) -> str:
    """What Telegram shows with each call, so that no one else is heard; the same for all workers of a bot."""
    return hmac.new(token.encode(), b"weekwright webhook", hashlib.sha256).hexdigest()


async def _register(bot: Bot, url: str, secret: str) -> None:
    """Tells Telegram where to call, however long the network is away."""
    waits = pauses()
    while error := await failure_of(lambda: bot.set_webhook(url, secret_token=secret, allowed_updates=list(WANTED))):
        if isinstance(error, InvalidToken):
            raise BadToken("Telegram does not know this token; @BotFather shows the right one") from error
        wait = next(waits)
        log.warning("the webhook is not set (%s); trying again in %.0f s", type(error).__name__, wait)
        await asyncio.sleep(wait)
    log.info("Telegram calls %s", url)


class _Update(RequestHandler):
    def initialize(self, hear: Hear, secret: str) -> None:
        self._hear = hear
        self._secret = secret

    async def post(self) -> None:
        """One update: 200 once it is committed, 403 without the secret, 400 for what is no JSON object."""
        shown = self.request.headers.get(SECRET_HEADER, "")
        if not hmac.compare_digest(shown.encode("utf-8", "replace"), self._secret.encode()):
            self.set_status(403)
            return
        update = _object(self.request.body)
        if update is None:
            self.set_status(400)
            return
        await self._hear(update)


def _object(body: bytes) -> Json | None:
    try:
        said = json.loads(body)
    except (ValueError, RecursionError):
        return None
    return said if isinstance(said, dict) else None
