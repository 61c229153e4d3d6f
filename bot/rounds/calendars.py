"""Calendars by link: read for the first time, and again at set times."""

from __future__ import annotations

import asyncio
import logging
from datetime import date, datetime
from urllib.parse import urlsplit

from bot.actions.calendars import Reading, keep_new, kept_days, refresh
from bot.actions.schedule import plan_reading
from bot.actions.today import local_now, today
from bot.calendar_unread import unread
from bot.outside.faults import CalendarUnavailable
from bot.owing import owe
from bot.rounds.lookouts import Lookouts
from bot.rules.quiet import is_asleep, is_quiet
from storage.database import Database
from storage.records import Author, Calendar, Person, Round, Visit

log = logging.getLogger("weekwright.calendars")


async def subscribe(database: Database, lookouts: Lookouts, person: Person, due: Round, now: datetime) -> None:
    """Reads a link that the person sent, and keeps its calendar."""
    link, _, name = due.detail.partition(" ")
    with database.desk(person.id, now) as desk:
        days = kept_days(desk)
    try:
        read, visit = await lookouts.read_calendar(link, person.zone, days, None, now)
    except CalendarUnavailable as error:
        with database.desk(person.id, now) as desk:
            if desk.rounds.claim(due.id):
                owe(desk, unread(link, error))
        return
    with database.desk(person.id, now) as desk:
        if desk.rounds.claim(due.id) and read is not None:
            called = name or read.name or urlsplit(link).hostname or link
            kept = keep_new(desk, Calendar(0, called, link), read)
            desk.visits.put(kept.calendar.id, visit)
            plan_reading(desk)
            owe(desk, kept, due.key)


async def read_again(database: Database, lookouts: Lookouts, person: Person, due: Round, now: datetime) -> None:
    """Reads every calendar that is not paused, and tells in one message what changed; silence when nothing did."""
    with database.desk(person.id, now) as desk:
        days = kept_days(desk)
        asked = [(each, desk.visits.get(each.id)) for each in desk.calendars.all() if each.link is not None and not each.paused]
    looked = await asyncio.gather(*(_look(lookouts, person, days, each, visit, now) for each, visit in asked))
    with database.desk(person.id, now) as desk:
        if not desk.rounds.claim(due.id):
            return
        plan_reading(desk)
        reply = refresh(desk, [found for found in looked if found is not None])
        if reply is not None and not is_quiet(desk.person, today(desk)):
            owe(desk, reply, round=due.kind.value, silent=is_asleep(desk.person, local_now(desk).time()))
        else:
            desk.journal.write("Calendars read again", None, by=Author.ROUND)


async def _look(
    lookouts: Lookouts, person: Person, days: tuple[date, date], calendar: Calendar, visit: Visit | None, now: datetime
) -> Reading | None:
    """What the link gives now; None when it gives nothing, as it may the next time."""
    try:
        read, visited = await lookouts.read_calendar(calendar.link or "", person.zone, days, visit, now)
    except CalendarUnavailable as error:
        log.warning("calendar %d of person %d: %s", calendar.id, person.id, error.fault)
        return None
    return calendar, read, visited
