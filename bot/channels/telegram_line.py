"""The line to Telegram's Bot API: one connection pool, and the token kept out of every log."""

from __future__ import annotations

import logging
import os
from dataclasses import dataclass, field
from urllib.request import getproxies

from telegram import Bot
from telegram.request import BaseRequest, HTTPXRequest

from bot.channels.telegram_wire import Wire

OFFICIAL = "https://api.telegram.org"
# httpx and httpcore log whole addresses, which hold the token; python-telegram-bot's debug lines hold what people write.
TALKATIVE: tuple[str, ...] = ("httpx", "httpcore", "telegram")
CONNECT_SECONDS = 5.0
READ_SECONDS = 10.0


@dataclass(frozen=True, slots=True)
class Line:
    """Where the Bot API is spoken and as whom. The token never shows in a printed value."""

    token: str = field(repr=False)
    url: str = OFFICIAL


class OpenLine:
    """An open line, as an async context: ``bot`` speaks over it until the end."""

    def __init__(self, line: Line) -> None:
        _keep_quiet()
        # A proxy that the environment names is httpx's business.
        self._request: BaseRequest = _usual() if getproxies() else Wire(CONNECT_SECONDS, READ_SECONDS)
        root = line.url.rstrip("/")
        # The bot is never initialized: that would ask who it is before the first poll, and put a wrong token into an error's text.
        self.bot = Bot(line.token, f"{root}/bot", f"{root}/file/bot", request=self._request, get_updates_request=self._request)

    async def __aenter__(self) -> Bot:
        return self.bot

    async def __aexit__(self, *_: object) -> None:
        await self._request.shutdown()


def _usual() -> HTTPXRequest:
    return HTTPXRequest(connection_pool_size=64, connect_timeout=CONNECT_SECONDS, read_timeout=READ_SECONDS, pool_timeout=5.0)


def _keep_quiet() -> None:
    # Without this, python-telegram-bot warns each time a waiting time is read.
    os.environ.setdefault("PTB_TIMEDELTA", "1")
    for name in TALKATIVE:
        logging.getLogger(name).setLevel(logging.WARNING)
