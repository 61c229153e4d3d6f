"""Going on after a failure: pauses that grow, failures as values, and steps that are repeated for ever."""

from __future__ import annotations

import asyncio
import logging
import traceback
from collections.abc import Awaitable, Callable, Iterator
from itertools import chain, repeat

from bot.apart.outcomes import Elsewhere

log = logging.getLogger("weekwright")

Sleep = Callable[[float], Awaitable[None]]


def pauses(first: float = 0.5, longest: float = 30.0) -> Iterator[float]:
    """Seconds to wait after each failure in a row: twice as long each time, up to ``longest``; never ends."""
    growing = []
    while first < longest:
        growing.append(first)
        first *= 2
    return chain(growing, repeat(longest))


async def failure_of(step: Callable[[], Awaitable[object]]) -> Exception | None:
    """What ``step`` failed with, whatever it was; None when it did not. Being cancelled is no failure and goes through."""
    (outcome,) = await asyncio.gather(_awaited(step), return_exceptions=True)
    if outcome is not None and not isinstance(outcome, Exception):
        raise outcome
    return outcome


async def repeat_for_ever(
    step: Callable[[], Awaitable[object]],
    name: str,
    every: float = 0.0,
    sleep: Sleep = asyncio.sleep,
    hopeless: tuple[type[Exception], ...] = (),
) -> None:
    """Repeats ``step`` every so many seconds; after a failure, which the log tells of, with pauses that grow instead.

    A ``hopeless`` failure, which no waiting mends, is raised.
    """
    waits = pauses()
    while True:
        error = await failure_of(step)
        if error is None:
            waits = pauses()
            await sleep(every)
        elif isinstance(error, hopeless):
            raise error
        else:
            log.error("%s failed: %s", name, whereabouts(error))
            await sleep(next(waits))


def whereabouts(error: BaseException) -> str:
    """An error's kind and the line it came from; not its text, which may quote what a person wrote."""
    if isinstance(error.__cause__, Elsewhere):
        return f"{type(error).__name__}{error.__cause__.where}"
    frames = traceback.extract_tb(error.__traceback__)
    where = f" in {frames[-1].name}, line {frames[-1].lineno}" if frames else ""
    return f"{type(error).__name__}{where}"


async def _awaited(step: Callable[[], Awaitable[object]]) -> None:
    await step()
