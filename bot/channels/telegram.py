"""Talks over Telegram: the listener, the postman and the alarm side by side until it is time to stop."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Coroutine, Sequence
from datetime import datetime
from time import monotonic

from telegram import Bot, BotCommand

from bot.channels.telegram_carrier import TelegramCarrier
from bot.channels.telegram_hearing import Engine, Hearing
from bot.channels.telegram_line import Line, OpenLine
from bot.channels.telegram_listener import Listener
from bot.rounds.bell import Bell
from bot.rounds.pace import Pace
from bot.rounds.postman import Fill, Outbox, Postman
from bot.rounds.pulse import ALARM, TELEGRAM, Pulse
from bot.rounds.steadily import failure_of, pauses, repeat_for_ever
from bot.settings_run import Address, WebhookSettings
from storage.errors import Unreadable

log = logging.getLogger("weekwright.telegram")

TICK_SECONDS = 5.0
LOOK_SECONDS = 1.0
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
    webhook: WebhookSettings | None = None,
    health: Address | None = None,
    fill: Fill | None = None,
    *,
    shared: bool = False,
) -> None:
    """Talks until ``stop`` is set, and then ends within five seconds with nothing in hand lost.

    ``alarm_tick`` claims the rounds that are due; ``commands`` are the names
    and words of Telegram's menu; ``fill`` makes what parcels enclose;
    with ``shared``, other workers do the same on the same database. Without a webhook Telegram is asked for
    updates. Raises BadToken and TwoPollers, OSError for an address to listen
    at that is taken, and Unreadable for a database that turns out to be damaged.
    """
    async with OpenLine(line) as bot:
        carrier, alarm_bell = TelegramCarrier(bot), Bell()
        pulse = Pulse(monotonic, (ALARM,) if webhook else (TELEGRAM, ALARM))
        postman = Postman(outbox, carrier, now, pace, fill=fill, shared=shared)
        hearing = Hearing(bot, engine, lambda: _ring(postman, alarm_bell), carrier.typing)
        await _until_stopped(
            stop,
            _listen(bot, hearing, now, pulse, webhook),
            repeat_for_ever(postman.keep_delivering, "delivering", hopeless=(Unreadable,)),
            repeat_for_ever(
                lambda: _tick(alarm_tick, postman, pulse), "the alarm", every=TICK_SECONDS, sleep=alarm_bell.wait, hopeless=(Unreadable,)
            ),
            _announce(bot, commands),
            *_health(health, pulse),
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


def _listen(
    bot: Bot, hearing: Hearing, now: Callable[[], datetime], pulse: Pulse, webhook: WebhookSettings | None
) -> Coroutine[None, None, None]:
    """Hears what comes, by the one way or the other; the server is loaded only by who has a webhook."""
    if webhook is None:
        return Listener(bot, hearing.hear_some, now, lambda: pulse.beat(TELEGRAM)).listen()
    from bot.channels.telegram_webhook import answer_calls

    return answer_calls(bot, hearing.hear, webhook)


def _health(address: Address | None, pulse: Pulse) -> tuple[Coroutine[None, None, None], ...]:
    """Tells who asks, where that is wanted."""
    if address is None:
        return ()
    from bot.channels.health import tell_health

    return (tell_health(address, pulse),)


def _ring(postman: Postman, alarm_bell: Bell) -> None:
    """What was heard may have left an answer to deliver, and something to look up at once."""
    postman.wake()
    alarm_bell.ring()


async def _tick(alarm_tick: Tick, postman: Postman, pulse: Pulse) -> None:
    """Does what is due. Meanwhile the postman looks now and then, as long work tells how far it is."""
    ticking = asyncio.ensure_future(alarm_tick())
    try:
        while not (await asyncio.wait({ticking}, timeout=LOOK_SECONDS))[0]:
            postman.wake()
    finally:
        ticking.cancel()
    ticking.result()
    pulse.beat(ALARM)
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
