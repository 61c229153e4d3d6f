"""The durable loop: ask for updates, hand them to the engine, and only then let Telegram forget them.

python-telegram-bot's own updater confirms updates before they are handled, so
that a crash loses them. Here an update is confirmed by asking for the one
after it, once the engine has committed it.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Sequence
from datetime import datetime, timedelta

from telegram import Bot
from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.channels.telegram_carrier import LONGEST_ASKED_SECONDS, seconds_of
from bot.channels.telegram_errors import BadToken, TwoPollers
from bot.channels.telegram_updates import WANTED, Json, update_id
from bot.rounds.steadily import Sleep, failure_of, pauses

log = logging.getLogger("weekwright.telegram")

POLL_SECONDS = 30
ANSWER_SECONDS = 10
# After a week without updates their numbers start anywhere, and an old offset could hide them: core.telegram.org/bots/api#update
IDLE = timedelta(days=6)

Hear = Callable[[Sequence[Json]], Awaitable[int]]


class Listener:
    """Asks for one bot's updates and has them heard by ``hear``, which says how many of them, from the first on, are committed.

    ``answered`` is called whenever Telegram has answered as it should.
    """

    def __init__(
        self,
        bot: Bot,
        hear: Hear,
        now: Callable[[], datetime],
        answered: Callable[[], None],
        sleep: Sleep = asyncio.sleep,
    ) -> None:
        self._bot = bot
        self._hear = hear
        self._now = now
        self._answered = answered
        self._sleep = sleep
        self._offset: int | None = None
        self._heard_at = now()
        self._waits = pauses()

    async def listen(self) -> None:
        """Handles updates for ever. Cancelled at any moment, it loses nothing. Raises BadToken and TwoPollers."""
        while True:
            updates = await self._poll()
            while updates:
                heard = await self._hear(updates)
                self._offset, self._heard_at = _next_after(updates[:heard]), self._now()
                updates = updates[heard:]

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
        except OverflowError:
            # A wait that no number of Python's for waits can hold.
            await self._sleep(LONGEST_ASKED_SECONDS)
            return []
        except TelegramError as error:
            return await self._wait_out(type(error).__name__)
        if not isinstance(updates, list):
            return await self._wait_out("answer of another shape")
        self._waits = pauses()
        self._answered()
        return [update for update in updates if isinstance(update, dict) and update_id(update) is not None]

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


def _next_after(updates: Sequence[Json]) -> int:
    """The offset that confirms these updates."""
    return max(number for number in map(update_id, updates) if number is not None) + 1
