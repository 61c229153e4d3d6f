"""Empties the outbox: in order for each address, at the chat service's pace, nothing acknowledged twice."""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Awaitable, Callable, Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from typing import Protocol

from bot.channels.carrying import Carrier, CarryBlocked, CarryLater, CarryRefused
from bot.rounds.bell import Bell
from bot.rounds.lanes import Lanes
from bot.rounds.pace import Pace
from storage.records import Blocked, Carried, Outcome, Parcel, ParcelKind, PutOff, SetAside, Waiting

log = logging.getLogger("weekwright.postman")

BATCH = 1000
# At 30 a second overall it takes a quarter of a second a message to keep them all busy.
MOST_COURIERS = 8
FIRST_PAUSE = timedelta(seconds=1)
LONGEST_PAUSE = timedelta(minutes=1)
LONG_REST_SECONDS = 60.0
# How soon what another worker left behind is found.
LOOK_ALL_OVER_SECONDS = 1.0
# Yesterday's news helps nobody. A clock that jumps must not give up what was tried for an hour or two only.
TOO_OLD = timedelta(days=1)
MANY_TRIES = 200

Fill = Callable[[Parcel], Awaitable[Parcel]]
"""Puts into a parcel what it encloses."""


class Outbox(Protocol):
    """The postman's side of the database's outbox."""

    def waiting(self, after: int, limit: int) -> Sequence[Waiting]:
        """What is owed and has an id above ``after``, in the order of ids."""

    def note_and_take(self, outcomes: Sequence[Outcome], ids: Sequence[int], now: datetime) -> Sequence[Parcel]:
        """Keeps what became of parcels that were taken; then gives those of ``ids`` that are still owed, as they were.

        Each of these is now known to be tried. All of it or nothing; an outcome of a parcel that is no longer there is passed over.
        """

    def get(self, id: int) -> Parcel:
        """One parcel."""


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
        *,
        shared: bool = False,
    ) -> None:
        """With ``shared``, other workers write to the outbox and send from it, too."""
        self._outbox = outbox
        self._carrier = carrier
        self._now = now
        self._pace = pace or Pace()
        self._sleep = sleep
        self._clock = clock
        self._fill = fill
        self._lanes = Lanes()
        self._newest = 0
        self._shared = shared
        self._looked_all_over = clock()
        self._couriers: dict[str, asyncio.Task[Outcome]] = {}
        self._unnoted: dict[str, Outcome] = {}
        self._bell = Bell()

    def wake(self) -> None:
        """Something new may be owed."""
        self._bell.ring()

    async def deliver_due(self) -> int:
        """Delivers all that is owed now; gives how many parcels were accepted. Raises what the outbox raises."""
        self._look_afresh()
        delivered = 0
        while True:
            delivered += self._turn()
            rest = self._lanes.seconds_of_rest(self._clock())
            if self._couriers:
                await asyncio.wait(self._couriers.values(), return_when=asyncio.FIRST_COMPLETED)
            elif rest is not None:
                await self._sleep(rest)
            else:
                return delivered

    async def keep_delivering(self) -> None:
        """Delivers whatever falls due, for ever; ``wake`` makes it look at once. Raises what the outbox raises."""
        self._look_afresh()
        while True:
            self._turn()
            await self._bell.wait(self._seconds_to_wait())

    async def recall(self) -> None:
        """Stops what is under way. A parcel in hand stays owed, and may have arrived all the same."""
        couriers = list(self._couriers.values())
        self._couriers.clear()
        for courier in couriers:
            courier.cancel()
        await asyncio.gather(*couriers, return_exceptions=True)

    def _seconds_to_wait(self) -> float:
        waits = (
            self._lanes.seconds_of_rest(self._clock()),
            self._lanes.seconds_put_off(self._now()),
            LOOK_ALL_OVER_SECONDS if self._shared else None,
        )
        return min((wait for wait in waits if wait is not None), default=LONG_REST_SECONDS)

    def _look_afresh(self) -> None:
        """Forgets what was known of the outbox, except for what is out or not noted yet."""
        self._lanes, self._newest = Lanes(out=(*self._couriers, *self._unnoted)), 0

    def _look(self) -> None:
        """Puts into lanes what was owed since.

        Where others write, too, what has a lower number may come later, and what another worker had in hand may be
        owed still. So all that is owed is looked at now and then.
        """
        if self._shared and self._clock() >= self._looked_all_over + LOOK_ALL_OVER_SECONDS:
            self._look_afresh()
            self._looked_all_over = self._clock()
        found: Sequence[Waiting] | None = None
        while found is None or len(found) == BATCH:
            found = self._outbox.waiting(self._newest, BATCH)
            for parcel in found:
                self._lanes.add(parcel)
                self._newest = parcel.id

    def _turn(self) -> int:
        """Takes back the couriers that are done and sends others to whom may be written to; gives how many parcels were accepted.

        What became of parcels, and which are tried next, is noted in one transaction. Should that fail, the parcels stay
        owed, but this process knows better than to send them again.
        """
        self._look()
        outcomes = self._taken_back()
        heads = {head.id: head.address for head in self._heads(MOST_COURIERS - len(self._couriers))}
        parcels = self._outbox.note_and_take(outcomes, tuple(heads), self._now()) if outcomes or heads else ()
        self._unnoted.clear()
        self._send_couriers(heads, {parcel.id: parcel for parcel in parcels})
        return sum(isinstance(outcome, Carried) for outcome in outcomes)

    def _taken_back(self) -> tuple[Outcome, ...]:
        """What became of parcels and is not noted yet; their lanes know it."""
        for address in [address for address, courier in self._couriers.items() if courier.done()]:
            self._unnoted[address] = self._couriers.pop(address).result()
        for address, outcome in self._unnoted.items():
            if isinstance(outcome, PutOff):
                self._lanes.put_off(address, outcome.not_before)
            else:
                self._lanes.over(address, outcome.id)
        return tuple(self._unnoted.values())

    def _send_couriers(self, heads: Mapping[int, str], parcels: Mapping[int, Parcel]) -> None:
        """Sends the parcels on their way; a head that is none of them is not owed any more, or in another worker's hand."""
        for id, address in heads.items():
            if id in parcels:
                self._couriers[address] = asyncio.create_task(self._deliver(parcels[id]))
                self._couriers[address].add_done_callback(lambda _: self.wake())
            else:
                self._lanes.over(address, id)

    def _heads(self, most: int) -> Iterator[Waiting]:
        """The parcels to send now; an address that was written to lately rests first."""
        clock = self._clock()
        while most and (head := self._lanes.next(self._now(), clock)) is not None:
            rest = self._pace.rest(head.address, clock)
            if rest > 0:
                self._lanes.rest(head.address, clock + rest)
            else:
                most -= 1
                yield head

    async def _deliver(self, parcel: Parcel) -> Outcome:
        """Sends the parcel and says what became of it."""
        rewrites = self._carried_as(parcel.edits) if parcel.kind is ParcelKind.EDIT else None
        filled = parcel if self._fill is None else await self._fill(parcel)
        # A try whose end nobody noted was cut short by a crash, or met with no answer: the message may be there already.
        # What rewrites a message does no harm when it comes again, and stays as it is.
        worded = _perhaps_a_repeat(filled) if parcel.tried and rewrites is None else filled
        try:
            return Carried(parcel.id, await self._carry(worded, rewrites))
        except CarryLater as error:
            return self._put_off(parcel, error)
        except CarryBlocked:
            log.warning("parcel %d and what follows set aside: the person blocked the bot", parcel.id)
            return Blocked(parcel.id, parcel.address)
        except CarryRefused as error:
            log.warning("parcel %d set aside: %s", parcel.id, type(error).__name__)
            return SetAside(parcel.id, f"{type(error).__name__}: {error}")

    async def _carry(self, parcel: Parcel, rewrites: str | None) -> str:
        """Carries it when it may go. Raises what the carrier raises."""
        while (wait := self._pace.wait(self._clock())) > 0:
            await self._sleep(wait)
        went = self._clock()
        self._pace.went(went)
        try:
            return await self._carrier.carry(parcel, rewrites)
        finally:
            self._pace.answered(parcel.address, went, self._clock())

    def _carried_as(self, parcel_id: int | None) -> str | None:
        return None if parcel_id is None else self._outbox.get(parcel_id).carried_as

    def _put_off(self, parcel: Parcel, error: CarryLater) -> Outcome:
        """When to try again. What is behind it in its lane waits too, so that it arrives in order."""
        now = self._now()
        if parcel.tries >= MANY_TRIES and now - parcel.written > TOO_OLD:
            log.warning("parcel %d given up after a day: %s", parcel.id, error.reason)
            return SetAside(parcel.id, f"given up after {parcel.tries + 1} tries: {error.reason}")
        not_before = now + max(timedelta(seconds=error.seconds), pause_after(parcel.tries))
        log.info("parcel %d waits until %s: %s", parcel.id, not_before.isoformat(timespec="seconds"), error.reason)
        return PutOff(parcel.id, not_before, now if error.perhaps_carried else parcel.tried)


def _perhaps_a_repeat(parcel: Parcel) -> Parcel:
    # All that can be said is loaded with it, which the start of a program need not wait for.
    from bot.voice.post_said import as_perhaps_a_repeat

    return as_perhaps_a_repeat(parcel)


def pause_after(tries: int) -> timedelta:
    """How long to wait before the next try after ``tries`` earlier ones failed: twice as long each time, up to a minute."""
    return min(FIRST_PAUSE * (1 << min(tries, 16)), LONGEST_PAUSE)
