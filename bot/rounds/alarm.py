"""Claims what is due and has it done. The database says what is due; whoever calls ``tick`` only wakes us."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Sequence
from datetime import datetime
from itertools import groupby

from bot.actions.schedule import USUAL_WAIT, plan_again, plan_next
from bot.rounds.calendars import read_again, subscribe
from bot.rounds.daily import evening, month, morning, recap
from bot.rounds.errands import forecast_again, seek_place
from bot.rounds.files import read_file
from bot.rounds.lookouts import Lookouts
from bot.rounds.pay import payday_eve
from bot.rounds.postman import pause_after
from bot.rounds.steadily import failure_of, whereabouts
from storage.database import Database
from storage.desk import Desk
from storage.errors import FileError
from storage.records import Person, Round, RoundKind, RoundState

BATCH = 100
"""Rounds read at a time."""

STRETCH = 6
"""Rounds told in one transaction: few enough that replies are heard in between."""

BREATH_SECONDS = 0.005
"""How long all else has its turn after a stretch, at least."""

OTHERS_SHARE = 2.5
"""How many times as long as the stretch took: replies and the post come first."""

AT_ONCE = 16
"""Errands that are under way at the same time."""

MOST_TRIES = 30
"""Of a round that fails each time, over about half an hour."""

log = logging.getLogger("weekwright.alarm")

Chore = Callable[[datetime], Awaitable[None]]
"""What the house does for itself, at every tick; it knows itself when it is time."""

Tell = Callable[[Desk, Round], None]
Run = Callable[[Database, Lookouts, Person, Round, datetime], Awaitable[None]]
MESSAGES: dict[RoundKind, Tell] = {
    RoundKind.MORNING: morning,
    RoundKind.EVENING: evening,
    RoundKind.RECAP: recap,
    RoundKind.MONTH: month,
    RoundKind.PAYDAY: payday_eve,
}
ERRANDS: dict[RoundKind, Run] = {
    RoundKind.FORECAST: forecast_again,
    RoundKind.PLACE: seek_place,
    RoundKind.SUBSCRIBE: subscribe,
    RoundKind.CALENDARS: read_again,
    RoundKind.READING: read_file,
}
LONG = frozenset({RoundKind.READING})
"""Errands that go on beside all else that falls due."""

LOOK_SECONDS = 1.0
"""How often what falls due is looked for while nothing but long errands is under way."""

NEED_FORECAST = frozenset({RoundKind.MORNING, RoundKind.FORECAST})


class Alarm:
    """Has every due round done, each at most once. One that fails is tried again later and holds up no other."""

    def __init__(self, database: Database, lookouts: Lookouts, now: Callable[[], datetime], chores: Sequence[Chore] = ()) -> None:
        self._database = database
        self._lookouts = lookouts
        self._now = now
        self._chores = chores
        self._seen: datetime | None = None
        self._long: dict[int, asyncio.Task[None]] = {}

    async def tick(self) -> int:
        """Does all that is due now, and what falls due while that takes long; gives how many rounds that were."""
        self._mind_the_clock()
        done, seen = 0, list[Round]()
        try:
            while (due := self._due(seen)) or self._long:
                await (self._do(due) if due else self._wait())
                done, seen = done + len(due), due or seen
        finally:
            for errand in self._long.values():
                errand.cancel()
            self._long.clear()
        for chore in self._chores:
            await chore(self._now())
        return done

    def _due(self, seen: list[Round]) -> list[Round]:
        """What is due and not under way; of long errands no more than may be at once."""
        due = [each for each in self._database.rounds.due(self._now(), BATCH + len(self._long)) if each.id not in self._long]
        too_many = [each for each in due if each.kind in LONG][AT_ONCE - len(self._long) :]
        found = [each for each in due if each not in too_many]
        # What is due again just as it was seen before is in the hands of other workers.
        return [] if found == seen else found

    async def _do(self, due: Sequence[Round]) -> None:
        await self._look_out(due)
        for do, run in groupby(due, self._way_of):
            await do(list(run))

    def _way_of(self, due: Round) -> Callable[[Sequence[Round]], Awaitable[None]]:
        if due.kind in MESSAGES:
            return self._tell
        return self._begin if due.kind in LONG else self._run

    async def _begin(self, due: Sequence[Round]) -> None:
        """Begins long errands; ``tick`` sees to their end."""
        for each in due:
            self._long[each.id] = asyncio.ensure_future(self._take_in_hand(each))

    async def _wait(self) -> None:
        """Until a long errand is over, which is then no longer under way, or for a moment. Raises FileError."""
        await asyncio.wait(self._long.values(), timeout=LOOK_SECONDS, return_when=asyncio.FIRST_COMPLETED)
        over = {id: errand for id, errand in self._long.items() if errand.done()}
        for id, errand in over.items():
            del self._long[id]
            errand.result()

    async def _look_out(self, due: Sequence[Round]) -> None:
        """Has the forecasts fetched that these rounds need, each place's once."""
        places = self._database.people.places({each.person_id for each in due if each.kind in NEED_FORECAST})
        await self._lookouts.refresh_forecasts(self._database, places, self._now())

    async def _tell(self, due: Sequence[Round]) -> None:
        """Tells some in one transaction; should one fail, each in one of its own."""
        clock = asyncio.get_running_loop().time
        for first in range(0, len(due), STRETCH):
            stretch, began = due[first : first + STRETCH], clock()
            if await failure_of(lambda stretch=stretch: self._tell_together(stretch)) is not None:  # type: ignore[misc]
                for each in stretch:
                    await self._see_through(each, lambda each=each: self._tell_together([each]))  # type: ignore[misc]
            await asyncio.sleep(max(BREATH_SECONDS, OTHERS_SHARE * (clock() - began)))

    async def _tell_together(self, due: Sequence[Round]) -> None:
        with self._database.desks() as desks:
            for each in desks.still_due(due):
                with desks.desk(each.person_id, self._now()) as desk:
                    MESSAGES[each.kind](desk, each)
                log.info("round %s for person %d, due %s", each.kind, each.person_id, each.due.isoformat())

    async def _run(self, due: Sequence[Round]) -> None:
        free = asyncio.Semaphore(AT_ONCE)

        async def run(each: Round) -> None:
            async with free:
                await self._take_in_hand(each)

        await asyncio.gather(*map(run, due))

    async def _take_in_hand(self, errand: Round) -> None:
        """Runs the errand, unless another worker does."""
        with self._database.rounds.in_hand(errand.id) as mine:
            if mine:
                await self._see_through(errand, lambda: self._run_errand(errand))

    async def _run_errand(self, due: Round) -> None:
        person = self._database.people.get(due.person_id)
        log.info("round %s for person %d, due %s", due.kind, person.id, due.due.isoformat())
        await ERRANDS[due.kind](self._database, self._lookouts, person, due, self._now())

    async def _see_through(self, due: Round, step: Callable[[], Awaitable[None]]) -> None:
        """Does it, or puts the round off when it fails; what the database's file is to blame for is raised, as all will fail then."""
        error = await failure_of(step)
        if isinstance(error, FileError):
            raise error
        if error is not None:
            log.error("round %s for person %d failed: %s", due.kind, due.person_id, whereabouts(error))
            self._put_off(due)

    def _put_off(self, failed: Round) -> None:
        """It is tried again with pauses that grow, and given up after many tries."""
        if failed.tries < MOST_TRIES:
            self._database.rounds.later(failed.id, self._now() + pause_after(failed.tries))
            return
        with self._database.desk(failed.person_id, self._now()) as desk:
            desk.rounds.finish(failed.id, RoundState.MISSED)
            plan_next(desk, failed.kind)

    def _mind_the_clock(self) -> None:
        """Plans anew, at the start and whenever the clock was put back, for whom it had run ahead."""
        now = self._now()
        if self._seen is None or now < self._seen:
            for person_id in self._database.rounds.astray(USUAL_WAIT, now):
                with self._database.desk(person_id, now) as desk:
                    plan_again(desk)
        self._seen = now
