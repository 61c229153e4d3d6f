"""Claims what is due and has it done. The database says what is due; whoever calls ``tick`` only wakes us."""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable, Sequence
from datetime import datetime

from bot.rounds.calendars import read_again, subscribe
from bot.rounds.daily import evening, month, morning, recap
from bot.rounds.errands import forecast_again, seek_place
from bot.rounds.files import read_file
from bot.rounds.lookouts import Lookouts
from bot.rounds.pay import payday_eve
from storage.database import Database
from storage.records import Person, Round, RoundKind

BATCH = 100
"""Rounds taken at a time, so that replies are heard in between."""

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

    async def tick(self) -> int:
        """Does all that is due now; gives how many rounds that were."""
        done = 0
        while due := self._database.rounds.due(self._now(), BATCH):
            for each in due:
                person = self._database.people.get(each.person_id)
                log.info("round %s for person %d, due %s", each.kind, person.id, each.due.isoformat())
                await HANDLERS[each.kind](self._database, self._lookouts, person, each, self._now())
            done += len(due)
        for chore in self._chores:
            await chore(self._now())
        return done
