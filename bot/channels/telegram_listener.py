"""The durable loop: ask for updates, hand each to the engine, and only then let Telegram forget it.

python-telegram-bot's own updater confirms updates before they are handled, so
that a crash loses them. Here an update is confirmed by asking for the one
after it, once the engine has committed it.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Coroutine
from datetime import datetime, timedelta
from typing import Protocol

from telegram import Bot
from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.channels.telegram_carrier import seconds_of
from bot.channels.telegram_errors import BadToken, TwoPollers
from bot.channels.telegram_files import fetched
from bot.channels.telegram_updates import WANTED, FileOffer, Json, read_update, tap_id, update_id
from bot.heard import Heard
from bot.rounds.steadily import Sleep, failure_of, pauses, whereabouts
from storage.errors import FileError

log = logging.getLogger("weekwright.telegram")

POLL_SECONDS = 30
ANSWER_SECONDS = 10
TRIES = 4
# After a week without updates their numbers start anywhere, and an old offset could hide them: core.telegram.org/bots/api#update
IDLE = timedelta(days=6)


class Engine(Protocol):
    """What hears. Both calls are short and have committed when they return."""

    def receive(self, heard: Heard) -> None:
        """Handles one thing heard in one transaction with its key; does nothing when that key was handled before."""

    def set_aside(self, heard: Heard, error: Exception) -> None:
        """Notes that ``heard`` could not be handled, so that it counts as handled."""


class Listener:
    """Listens to one bot's private chats.

    ``after`` is called whenever something was handled; ``typing`` shows an
    address that work has begun which takes a while.
    """

    def __init__(
        self,
        bot: Bot,
        engine: Engine,
        now: Callable[[], datetime],
        after: Callable[[], None],
        typing: Callable[[str], Coroutine[None, None, None]],
        sleep: Sleep = asyncio.sleep,
    ) -> None:
        self._bot = bot
        self._engine = engine
        self._now = now
        self._after = after
        self._typing = typing
        self._sleep = sleep
        self._offset: int | None = None
        self._heard_at = now()
        self._waits = pauses()
        self._beside: set[asyncio.Task[None]] = set()

    async def listen(self) -> None:
        """Handles updates for ever. Cancelled at any moment, it loses nothing. Raises BadToken and TwoPollers."""
        while True:
            for update in await self._poll():
                number = update_id(update)
                if number is not None:
                    await self._handle(update)
                    self._offset, self._heard_at = number + 1, self._now()

    async def _poll(self) -> list[Json]:
        """The next updates; none after a failure, which has been waited for."""
        try:
            updates = await self._ask()
        except InvalidToken as error:
            raise BadToken("Telegram does not know this token; @BotFather shows the right one") from error
        except Conflict as error:
            await self._settle_conflict(error)
            return []
        except RetryAfter as error:
            # Asked to wait no time at all, and asking again at once, it would ask for ever.
            await self._sleep(max(seconds_of(error.retry_after), next(self._waits)))
            return []
        except TelegramError as error:
            return await self._wait_out(type(error).__name__)
        if not isinstance(updates, list):
            return await self._wait_out("answer of another shape")
        self._waits = pauses()
        return [update for update in updates if isinstance(update, dict)]

    async def _ask(self) -> object:
        """The raw answer to getUpdates.

        Raw, because one update that the library cannot read would else hide
        the rest of its batch, and be quoted in a log. The method's name is
        not case-sensitive (core.telegram.org/bots/api#making-requests); in
        this spelling the library lets it pass without reading the answer.
        """
        if self._now() - self._heard_at > IDLE:
            self._offset = None
        question = {"offset": self._offset, "timeout": POLL_SECONDS, "allowed_updates": list(WANTED)}
        return await self._bot.do_api_request("GetUpdates", question, read_timeout=POLL_SECONDS + ANSWER_SECONDS)

    async def _wait_out(self, what: str) -> list[Json]:
        wait = next(self._waits)
        log.warning("no updates (%s); asking again in %.0f s", what, wait)
        await self._sleep(wait)
        return []

    async def _settle_conflict(self, error: Conflict) -> None:
        """A webhook that was set once keeps updates away from pollers and is taken down; another poller ends us."""
        if "webhook" not in error.message.lower():
            raise TwoPollers("another program asks for this bot's updates; stop it first") from error
        log.warning("taking down a webhook that was set for this bot")
        if await failure_of(self._bot.delete_webhook) is not None:
            await self._wait_out("webhook still there")

    async def _handle(self, update: Json) -> None:
        read = read_update(update)
        heard = await self._fetch(read) if isinstance(read, FileOffer) else read
        if heard is not None:
            await self._tell_engine(heard)
            self._after()
        tap = tap_id(update)
        if tap is not None:
            self._do_beside(self._answer_tap(tap))

    async def _fetch(self, offer: FileOffer) -> Heard:
        self._do_beside(self._typing(offer.as_heard.address))
        return await fetched(self._bot, offer, self._sleep)

    async def _tell_engine(self, heard: Heard) -> None:
        """Comes back once the engine has it, or it was set aside for good."""
        error = await self._insist(lambda: self._receive(heard), heard.key)
        if error is not None:
            await self._insist(lambda: self._set_aside(heard, error), heard.key)

    async def _insist(self, step: Callable[[], Awaitable[None]], key: str) -> Exception | None:
        """Tries until it works, or gives the error after some tries.

        A database that is locked, or a disk that is full, is waited for
        however long it takes: that is no fault of the update's.
        """
        waits, failures = pauses(), 0
        while (error := await failure_of(step)) is not None:
            log.error("%s not handled: %s", key, whereabouts(error))
            failures += not isinstance(error, FileError)
            if failures == TRIES:
                return error
            await self._sleep(next(waits))
        return None

    async def _receive(self, heard: Heard) -> None:
        self._engine.receive(heard)

    async def _set_aside(self, heard: Heard, error: Exception) -> None:
        self._engine.set_aside(heard, error)

    def _do_beside(self, courtesy: Coroutine[None, None, None]) -> None:
        """Does what nothing depends on, without waiting for it."""
        task = asyncio.create_task(courtesy)
        self._beside.add(task)
        task.add_done_callback(self._beside.discard)

    async def _answer_tap(self, tap: str) -> None:
        """Ends the waiting sign on the button that was tapped."""
        try:
            await self._bot.answer_callback_query(tap)
        except TelegramError as error:
            log.debug("a tap was not answered: %s", type(error).__name__)
