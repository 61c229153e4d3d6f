"""Going on after failures, and blocking work beside the loop."""

from __future__ import annotations

import asyncio
import logging
import threading
import time
from itertools import islice

import pytest

from bot.rounds.bell import Bell
from bot.rounds.off_loop import off_loop
from bot.rounds.steadily import failure_of, pauses, repeat_for_ever, whereabouts


def test_pauses_double_up_to_the_longest_and_never_end() -> None:
    assert list(islice(pauses(0.5, 30), 9)) == [0.5, 1, 2, 4, 8, 16, 30, 30, 30]


def test_a_failure_of_any_kind_is_a_value_and_success_is_none() -> None:
    async def works() -> None:
        return None

    async def fails() -> None:
        raise KeyError("a mistake")

    assert asyncio.run(failure_of(works)) is None
    assert isinstance(asyncio.run(failure_of(fails)), KeyError)


def test_being_cancelled_is_no_failure() -> None:
    async def story() -> None:
        waiting = asyncio.create_task(failure_of(asyncio.Event().wait))
        await asyncio.sleep(0)
        waiting.cancel()
        await waiting

    with pytest.raises(asyncio.CancelledError):
        asyncio.run(story())


def test_a_step_goes_on_after_failures_with_pauses_that_start_small_again(caplog: pytest.LogCaptureFixture) -> None:
    slept: list[float] = []
    outcomes = iter([True, False, False, True, False])

    async def step() -> None:
        if not next(outcomes):
            raise ValueError("what a person wrote")

    async def sleep(seconds: float) -> None:
        slept.append(seconds)
        if len(slept) == 5:
            raise asyncio.CancelledError

    with caplog.at_level(logging.ERROR), pytest.raises(asyncio.CancelledError):
        asyncio.run(repeat_for_ever(step, "the step", every=5.0, sleep=sleep))
    assert slept == [5, 0.5, 1, 5, 0.5]
    assert "the step failed: ValueError in step" in caplog.text
    assert "what a person wrote" not in caplog.text


def test_an_error_that_was_never_raised_has_no_whereabouts() -> None:
    assert whereabouts(KeyError("x")) == "KeyError"


def test_a_bell_rung_ahead_of_time_counts_once() -> None:
    async def story() -> tuple[float, float]:
        bell = Bell()
        bell.ring()
        began = time.monotonic()
        await bell.wait(60)
        first = time.monotonic() - began
        await bell.wait(0.01)
        return first, time.monotonic() - began - first

    first, second = asyncio.run(story())
    assert first < 1
    assert second >= 0.01


def test_work_beside_the_loop_gives_what_it_gives_and_raises_what_it_raises() -> None:
    def fails() -> int:
        raise LookupError("no such place")

    async def story() -> None:
        assert await off_loop(threading.current_thread) is not threading.main_thread()
        with pytest.raises(LookupError, match="no such place"):
            await off_loop(fails)

    asyncio.run(story())


def test_work_that_hangs_does_not_keep_the_program_from_stopping() -> None:
    release = threading.Event()

    async def story() -> None:
        with pytest.raises(TimeoutError):
            async with asyncio.timeout(0.01):
                await off_loop(release.wait)

    began = time.monotonic()
    asyncio.run(story())
    assert time.monotonic() - began < 2
    release.set()
