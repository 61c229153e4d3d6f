"""Blocking work beside the event loop."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from concurrent.futures import Future
from threading import Thread
from types import TracebackType
from typing import Generic, TypeVar

Given = TypeVar("Given")


def off_loop(work: Callable[[], Given]) -> Awaitable[Given]:
    """Runs ``work`` in a thread of its own; gives what it gives and raises what it raises.

    Unlike those of ``asyncio.to_thread`` the thread is not waited for at the
    end: a forecast that hangs must not keep the program from stopping.
    """
    outcome: Future[Given] = Future()
    # Once it is said to run, giving up waiting does not spoil the future that the thread will still settle.
    outcome.set_running_or_notify_cancel()
    Thread(target=_settle, args=(outcome, work), daemon=True).start()
    return asyncio.wrap_future(outcome)


def _settle(outcome: Future[Given], work: Callable[[], Given]) -> None:
    with _HandOver(outcome):
        outcome.set_result(work())


class _HandOver(Generic[Given]):
    """Gives an error, of whatever kind, to who waits for the outcome."""

    def __init__(self, outcome: Future[Given]) -> None:
        self._outcome = outcome

    def __enter__(self) -> None:
        return None

    def __exit__(self, _kind: type[BaseException] | None, error: BaseException | None, _trace: TracebackType | None) -> bool:
        if error is not None:
            self._outcome.set_exception(error)
        return True
