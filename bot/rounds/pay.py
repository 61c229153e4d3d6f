"""A word on payday's eve."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bot.actions.paydays import payday_tomorrow
from bot.owing import owe
from bot.rounds.daily import begin, is_late, kept_quiet
from bot.rounds.lookouts import Lookouts
from bot.rules.local_time import local_day
from storage.database import Database
from storage.records import Person, Round


async def payday_eve(database: Database, lookouts: Lookouts, person: Person, due: Round, now: datetime) -> None:
    """What is paid tomorrow, where the person wants to be told; until midnight."""
    with database.desk(person.id, now) as desk:
        day = date.fromisoformat(due.key)
        if begin(desk, due, local_day(now, person.zone) == day) and not kept_quiet(desk, due):
            reply = payday_tomorrow(desk, day + timedelta(days=1), late=is_late(due, now))
            if reply is not None:
                owe(desk, reply, round=due.kind.value)
