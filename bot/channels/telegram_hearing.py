"""Updates heard: read, their files fetched, and handed to the engine until that has them."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Coroutine, Sequence
from typing import Protocol

from telegram import Bot
from telegram.error import TelegramError

from bot.channels.telegram_files import fetched
from bot.channels.telegram_updates import FileOffer, Json, read_update, tap_id
from bot.heard import Heard
from bot.rounds.steadily import Sleep, failure_of, pauses, whereabouts
from storage.errors import FileError, Unreadable

log = logging.getLogger("weekwright.telegram")

TRIES = 4
# Few enough that answers leave, and new messages are heard, within some hundredths of a second.
MOST_TOGETHER = 16


class Engine(Protocol):
    """What hears. The calls are short and have committed when they return."""

    def receive_all(self, heard: Sequence[Heard]) -> None:
        """Handles what was heard in order, in as few transactions as it can; any of it may be received again should this fail."""

    def receive(self, heard: Heard) -> None:
        """Handles one thing heard in one transaction with its key; does nothing when that key was handled before."""

    def set_aside(self, heard: Heard, error: Exception) -> None:
        """Notes that ``heard`` could not be handled, so that it counts as handled."""


class Hearing:
    """Hears one bot's private chats, however an update came.

    ``after`` is called whenever something was handled; ``typing`` shows an
    address that work has begun which takes a while.
    """

    def __init__(
        self,
        bot: Bot,
        engine: Engine,
        after: Callable[[], None],
        typing: Callable[[str], Coroutine[None, None, None]],
        sleep: Sleep = asyncio.sleep,
    ) -> None:
        self._bot = bot
        self._engine = engine
        self._after = after
        self._typing = typing
        self._sleep = sleep
        self._beside: set[asyncio.Task[None]] = set()

    async def hear(self, update: Json) -> None:
        """Comes back once what ``update`` says is committed, or set aside for good."""
        await self.hear_some([update])

    async def hear_some(self, updates: Sequence[Json]) -> int:
        """The same for the first of the updates, those up to a file together; gives how many that were, at least one."""
        first = read_update(updates[0])
        heard = [await self._fetch(first)] if isinstance(first, FileOffer) else _up_to_a_file(updates[:MOST_TOGETHER])
        await self._tell_all([each for each in heard if each is not None])
        for tap in map(tap_id, updates[: len(heard)]):
            if tap is not None:
                self._do_beside(self._answer_tap(tap))
        # What is owed now leaves before anything else is asked for: one turn of the loop is the postman's, one his courier's.
        for _ in ("postman", "courier"):
            await asyncio.sleep(0)
        return len(heard)

    async def _tell_all(self, heard: Sequence[Heard]) -> None:
        """Comes back once the engine has all of it. When it cannot have them together, each comes alone and fails alone."""
        if len(heard) > 1 and await failure_of(lambda: self._receive_all(heard)) is None:
            self._after()
            return
        for each in heard:
            await self._tell_engine(each)
            self._after()

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
        however long it takes: that is no fault of the update's. One that is
        damaged is raised, for no waiting mends it.
        """
        waits, failures = pauses(), 0
        while (error := await failure_of(step)) is not None:
            log.error("%s not handled: %s", key, whereabouts(error))
            if isinstance(error, Unreadable):
                raise error
            failures += not isinstance(error, FileError)
            if failures == TRIES:
                return error
            await self._sleep(next(waits))
        return None

    async def _receive_all(self, heard: Sequence[Heard]) -> None:
        self._engine.receive_all(heard)

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


def _up_to_a_file(updates: Sequence[Json]) -> list[Heard | None]:
    """What the updates ahead of the first file say; None for one that says nothing to us."""
    heard: list[Heard | None] = []
    for update in updates:
        read = read_update(update)
        if isinstance(read, FileOffer):
            break
        heard.append(read)
    return heard
