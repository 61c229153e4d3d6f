"""Empties the outbox: in order for each address, at the chat service's pace, nothing acknowledged twice."""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Awaitable, Callable, Iterable, Sequence
from datetime import datetime, timedelta
from typing import Protocol

from bot.channels.carrying import Carrier, CarryBlocked, CarryLater, CarryRefused
from bot.rounds.bell import Bell
from bot.rounds.pace import Pace
from bot.voice.post_said import as_perhaps_a_repeat
from storage.records import Parcel, ParcelKind

log = logging.getLogger("weekwright.postman")

BATCH = 100
MOST_COURIERS = 16
FIRST_PAUSE = timedelta(seconds=1)
LONGEST_PAUSE = timedelta(minutes=1)
SHORT_REST_SECONDS = 1.0
LONG_REST_SECONDS = 60.0
# Yesterday's news helps nobody. A clock that jumps must not give up what was hardly tried.
TOO_OLD = timedelta(days=1)
MANY_TRIES = 10

Fill = Callable[[Parcel], Awaitable[Parcel]]
"""Puts into a parcel what it encloses."""


class Outbox(Protocol):
    """The postman's side of the database's outbox."""

    def owed(self, now: datetime, limit: int) -> Sequence[Parcel]:
        """The parcels that may be tried now, the oldest first; none that is behind another to its address which has to wait."""

    def next_due(self, now: datetime) -> datetime | None:
        """``now`` when something may be tried, else when the next wait ends; None when nothing is owed."""

    def get(self, id: int) -> Parcel:
        """One parcel."""

    def trying(self, id: int, now: datetime) -> None:
        """The parcel is about to be sent; counts the tries."""

    def sent(self, id: int, carried_as: str, now: datetime) -> None:
        """The parcel was accepted under that id of the chat service's."""

    def later(self, id: int, not_before: datetime, tried: datetime | None = None) -> None:
        """The parcel is to be tried again, but not before that; with ``tried`` it may have arrived then."""

    def aside(self, id: int, reason: str) -> None:
        """The parcel will not be tried again."""

    def blocked(self, address: str, now: datetime) -> None:
        """Nothing more is to go there until the person is heard again."""


class Postman:
    """Delivers what is owed, with one courier at a time to each address, so that no slow address holds up another."""

    def __init__(
        self,
        outbox: Outbox,
        carrier: Carrier,
        now: Callable[[], datetime],
        pace: Pace | None = None,
        sleep: Callable[[float], Awaitable[None]] = asyncio.sleep,
        clock: Callable[[], float] = time.monotonic,
        fill: Fill | None = None,
    ) -> None:
        self._outbox = outbox
        self._carrier = carrier
        self._now = now
        self._pace = pace or Pace()
        self._sleep = sleep
        self._clock = clock
        self._fill = fill
        self._couriers: dict[str, asyncio.Task[int]] = {}
        self._accepted: dict[int, str] = {}
        self._bell = Bell()

    def wake(self) -> None:
        """Something new may be owed."""
        self._bell.ring()

    async def deliver_due(self) -> int:
        """Delivers all that is owed now; gives how many parcels were accepted. Raises what the outbox raises."""
        delivered = 0
        while self._send_couriers() or self._couriers:
            await asyncio.wait(self._couriers.values(), return_when=asyncio.FIRST_COMPLETED)
            delivered += self._welcome_couriers()
        return delivered

    async def keep_delivering(self) -> None:
        """Delivers whatever falls due, for ever; ``wake`` makes it look at once. Raises what the outbox raises."""
        while True:
            self._welcome_couriers()
            self._send_couriers()
            await self._bell.wait(self._seconds_to_rest())

    async def recall(self) -> None:
        """Stops what is under way. A parcel in hand stays owed, and may have arrived all the same."""
        couriers = list(self._couriers.values())
        self._couriers.clear()
        for courier in couriers:
            courier.cancel()
        await asyncio.gather(*couriers, return_exceptions=True)

    def _seconds_to_rest(self) -> float:
        if self._couriers:
            # The outbox still counts what they carry as due.
            return SHORT_REST_SECONDS
        next_due = self._outbox.next_due(self._now())
        seconds = LONG_REST_SECONDS if next_due is None else (next_due - self._now()).total_seconds()
        return min(max(seconds, 0.0), LONG_REST_SECONDS)

    def _send_couriers(self) -> int:
        """Sends a courier to each address that is owed something and may be written to; gives how many were sent."""
        owed = self._outbox.owed(self._now(), BATCH)
        ready = _by_address(parcel for parcel in owed if parcel.address not in self._couriers)
        places = MOST_COURIERS - len(self._couriers)
        for address, parcels in list(ready.items())[:places]:
            self._couriers[address] = asyncio.create_task(self._deliver_in_order(parcels))
            self._couriers[address].add_done_callback(lambda _: self.wake())
        return min(len(ready), places)

    def _welcome_couriers(self) -> int:
        """Takes back the couriers that are done; gives how many parcels they delivered."""
        done = [address for address, courier in self._couriers.items() if courier.done()]
        return sum(self._couriers.pop(address).result() for address in done)

    async def _deliver_in_order(self, parcels: Sequence[Parcel]) -> int:
        """Delivers to one address until all is done or one has to wait."""
        delivered = 0
        for parcel in parcels:
            try:
                delivered += await self._deliver(parcel)
            except CarryLater as error:
                self._put_off(parcel, error)
                break
            except CarryBlocked:
                log.warning("parcel %d and what follows set aside: the person blocked the bot", parcel.id)
                self._outbox.blocked(parcel.address, self._now())
                break
        return delivered

    async def _deliver(self, parcel: Parcel) -> bool:
        """Whether the parcel was accepted, now or before; else it was set aside. Raises CarryLater and CarryBlocked."""
        try:
            if parcel.id not in self._accepted:
                self._accepted[parcel.id] = await self._carry(parcel)
        except CarryRefused as error:
            log.warning("parcel %d set aside: %s", parcel.id, type(error).__name__)
            self._outbox.aside(parcel.id, f"{type(error).__name__}: {error}")
            return False
        # Should this mark fail, the parcel stays owed, but this process knows better than to send it again.
        self._outbox.sent(parcel.id, self._accepted[parcel.id], self._now())
        del self._accepted[parcel.id]
        return True

    async def _carry(self, parcel: Parcel) -> str:
        await self._sleep(self._pace.reserve(parcel.address, self._clock()))
        rewrites = self._carried_as(parcel.edits) if parcel.kind is ParcelKind.EDIT else None
        self._outbox.trying(parcel.id, self._now())
        filled = parcel if self._fill is None else await self._fill(parcel)
        # A try whose end nobody noted was cut short by a crash, or met with no answer: the message may be there already.
        return await self._carrier.carry(as_perhaps_a_repeat(filled) if parcel.tried else filled, rewrites)

    def _carried_as(self, parcel_id: int | None) -> str | None:
        return None if parcel_id is None else self._outbox.get(parcel_id).carried_as

    def _put_off(self, parcel: Parcel, error: CarryLater) -> None:
        """The outbox keeps the later parcels to this address waiting too, so that they arrive in order."""
        now = self._now()
        if parcel.tries >= MANY_TRIES and now - parcel.written > TOO_OLD:
            log.warning("parcel %d given up after a day: %s", parcel.id, error.reason)
            self._outbox.aside(parcel.id, f"given up after {parcel.tries + 1} tries: {error.reason}")
            return
        not_before = now + max(timedelta(seconds=error.seconds), pause_after(parcel.tries))
        log.info("parcel %d waits until %s: %s", parcel.id, not_before.isoformat(timespec="seconds"), error.reason)
        self._outbox.later(parcel.id, not_before, now if error.perhaps_carried else parcel.tried)


def pause_after(tries: int) -> timedelta:
    """How long to wait before the next try after ``tries`` earlier ones failed: twice as long each time, up to a minute."""
    return min(FIRST_PAUSE * (1 << min(tries, 16)), LONGEST_PAUSE)


def _by_address(parcels: Iterable[Parcel]) -> dict[str, list[Parcel]]:
    grouped: dict[str, list[Parcel]] = {}
    for parcel in parcels:
        grouped.setdefault(parcel.address, []).append(parcel)
    return grouped
