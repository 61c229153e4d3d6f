"""Talks over Telegram: the listener, the postman and the alarm side by side until it is time to stop."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Coroutine, Sequence
from datetime import datetime

from telegram import Bot, BotCommand

from bot.channels.telegram_carrier import TelegramCarrier
from bot.channels.telegram_line import Line, OpenLine
from bot.channels.telegram_listener import Engine, Listener
from bot.rounds.bell import Bell
from bot.rounds.pace import Pace
from bot.rounds.postman import Fill, Outbox, Postman
from bot.rounds.steadily import failure_of, pauses, repeat_for_ever

log = logging.getLogger("weekwright.telegram")

TICK_SECONDS = 5.0
GRACE_SECONDS = 3.0

Command = tuple[str, str]
Tick = Callable[[], Awaitable[object]]


async def talk(
    line: Line,
    engine: Engine,
    outbox: Outbox,
    alarm_tick: Tick,
    now: Callable[[], datetime],
    stop: asyncio.Event,
    commands: Sequence[Command] = (),
    pace: Pace | None = None,
    fill: Fill | None = None,
) -> None:
    """Talks until ``stop`` is set, and then ends within five seconds with nothing in hand lost.

    ``alarm_tick`` claims the rounds that are due; ``commands`` are the names
    and words of Telegram's menu; ``fill`` makes what parcels enclose. Raises BadToken and TwoPollers.
    """
    async with OpenLine(line) as bot:
        carrier, alarm_bell = TelegramCarrier(bot), Bell()
        postman = Postman(outbox, carrier, now, pace, fill=fill)
        listener = Listener(bot, engine, now, lambda: _ring(postman, alarm_bell), carrier.typing)
        await _until_stopped(
            stop,
            listener.listen(),
            repeat_for_ever(postman.keep_delivering, "delivering"),
            repeat_for_ever(lambda: _tick(alarm_tick, postman), "the alarm", every=TICK_SECONDS, sleep=alarm_bell.wait),
            _announce(bot, commands),
        )
        await _deliver_the_rest(postman)


async def _until_stopped(stop: asyncio.Event, *works: Coroutine[None, None, None]) -> None:
    """Does all the works side by side until it is time to stop, or until one fails, which is raised."""
    try:
        async with asyncio.TaskGroup() as group:
            tasks = [group.create_task(work) for work in works]
            await stop.wait()
            for task in tasks:
                task.cancel()
    except ExceptionGroup as failed:
        raise failed.exceptions[0] from failed


def _ring(postman: Postman, alarm_bell: Bell) -> None:
    """What was heard may have left an answer to deliver, and something to look up at once."""
    postman.wake()
    alarm_bell.ring()


async def _tick(alarm_tick: Tick, postman: Postman) -> None:
    await alarm_tick()
    postman.wake()


async def _announce(bot: Bot, commands: Sequence[Command]) -> None:
    """Fills Telegram's menu of commands, however long the network is away."""
    menu = [BotCommand(name, words) for name, words in commands]
    for wait in pauses():
        if await failure_of(lambda: bot.set_my_commands(menu)) is None:
            return
        await asyncio.sleep(wait)


async def _deliver_the_rest(postman: Postman) -> None:
    """What is owed now is still delivered if that is quickly done; the rest stays owed."""
    try:
        async with asyncio.timeout(GRACE_SECONDS):
            await failure_of(postman.deliver_due)
    except TimeoutError:
        log.info("stopped with messages still owed")
    await postman.recall()
