"""What wakes the alarm: a short tick of APScheduler's. What is due, the database says."""

from __future__ import annotations

from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager

TICK_SECONDS = 5


@asynccontextmanager
async def waking(wake: Callable[[], Awaitable[object]], seconds: int = TICK_SECONDS) -> AsyncIterator[None]:
    """Calls ``wake`` every few seconds while the block runs.

    A tick is never given up as too late, and ticks missed while busy or asleep come as one.
    """
    from apscheduler.schedulers.asyncio import AsyncIOScheduler

    scheduler = AsyncIOScheduler(job_defaults={"coalesce": True, "misfire_grace_time": None, "max_instances": 1})
    scheduler.add_job(wake, "interval", seconds=seconds)
    scheduler.start()
    try:
        yield
    finally:
        scheduler.shutdown(wait=False)
