"""Claims what is due and has it done. The database says what is due; whoever calls ``tick`` only wakes us."""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable, Sequence
from datetime import datetime
from functools import partial

from bot.actions.schedule import plan_again, plan_next
from bot.rounds.calendars import read_again, subscribe
from bot.rounds.daily import evening, month, morning, recap
from bot.rounds.errands import forecast_again, seek_place
from bot.rounds.files import read_file
from bot.rounds.lookouts import Lookouts
from bot.rounds.pay import payday_eve
from bot.rounds.postman import pause_after
from bot.rounds.steadily import failure_of, whereabouts
from storage.database import Database
from storage.errors import FileError
from storage.records import Person, Round, RoundKind, RoundState

BATCH = 100
"""Rounds taken at a time, so that replies are heard in between."""

MOST_TRIES = 30
"""Of a round that fails each time, over about half an hour."""

log = logging.getLogger("weekwright.alarm")

Chore = Callable[[datetime], Awaitable[None]]
"""What the house does for itself, at every tick; it knows itself when it is time."""

Handler = Callable[[Database, Lookouts, Person, Round, datetime], Awaitable[None]]

HANDLERS: dict[RoundKind, Handler] = {
    RoundKind.MORNING: morning,
    RoundKind.EVENING: evening,
    RoundKind.RECAP: recap,
    RoundKind.MONTH: month,
    RoundKind.FORECAST: forecast_again,
    RoundKind.PLACE: seek_place,
    RoundKind.SUBSCRIBE: subscribe,
    RoundKind.CALENDARS: read_again,
    RoundKind.READING: read_file,
    RoundKind.PAYDAY: payday_eve,
}


class Alarm:
    """Has every due round done, each at most once."""

    def __init__(self, database: Database, lookouts: Lookouts, now: Callable[[], datetime], chores: Sequence[Chore] = ()) -> None:
        self._database = database
        self._lookouts = lookouts
        self._now = now
        self._chores = chores
        self._seen: datetime | None = None

    async def tick(self) -> int:
        """Does all that is due now; gives how many rounds that were."""
        self._mind_the_clock()
        done = 0
        while due := self._database.rounds.due(self._now(), BATCH):
            for each in due:
                person = self._database.people.get(each.person_id)
                log.info("round %s for person %d, due %s", each.kind, person.id, each.due.isoformat())
                error = await failure_of(partial(HANDLERS[each.kind], self._database, self._lookouts, person, each, self._now()))
                if error is not None:
                    self._put_off(each, error)
            done += len(due)
        for chore in self._chores:
            await chore(self._now())
        return done

    def _put_off(self, failed: Round, error: Exception) -> None:
        """One round that fails holds up no other: it is tried again with pauses that grow, and given up after many tries.

        A database that cannot be used is no round's fault, and is raised.
        """
        if isinstance(error, FileError):
            raise error
        log.error("round %d (%s) failed: %s", failed.id, failed.kind, whereabouts(error))
        if failed.tries < MOST_TRIES:
            self._database.rounds.later(failed.id, self._now() + pause_after(failed.tries))
            return
        with self._database.desk(failed.person_id, self._now()) as desk:
            desk.rounds.finish(failed.id, RoundState.MISSED)
            plan_next(desk, failed.kind)

    def _mind_the_clock(self) -> None:
        """Plans anew at the start and whenever the clock was put back, for else a round could wait for a day that is far again."""
        now = self._now()
        if self._seen is None or now < self._seen:
            for person in self._database.people.all():
                with self._database.desk(person.id, now) as desk:
                    plan_again(desk)
        self._seen = now
