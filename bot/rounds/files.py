"""Long files: read beside all else, while one message tells how far that has come."""

from __future__ import annotations

import asyncio
from datetime import datetime
from pathlib import PurePath

from bot.actions.calendars import keep_file, kept_days
from bot.calendar_unread import unread
from bot.outside.calendars.progress import Progress
from bot.outside.faults import CalendarUnavailable
from bot.owing import owe
from bot.rounds.lookouts import Lookouts
from bot.rules.calendar_events import ReadCalendar
from bot.voice.replies import FileBeingRead, Reply
from storage.database import Database
from storage.desk import Desk
from storage.records import Person, Round


async def read_file(database: Database, lookouts: Lookouts, person: Person, due: Round, now: datetime) -> None:
    """Reads the file that ``due.key`` names, and says what it holds in the message whose parcel ``due.detail`` is.

    The round is claimed once all is kept: after a crash the file is read anew.
    """
    with database.desk(person.id, now) as desk:
        found, days = desk.files.find(due.key), kept_days(desk)
        if found is None:
            desk.rounds.claim(due.id)
            return
    name, content = found
    progress = Progress()
    reading = asyncio.ensure_future(lookouts.read_file(content, person.zone, days, progress))
    told = FileBeingRead(name)
    while not (await asyncio.wait({reading}, timeout=lookouts.tells_every))[0]:
        news = FileBeingRead(name, progress.events, progress.of)
        if news != told:
            with database.desk(person.id, now) as desk:
                owe(desk, news, edits=int(due.detail))
        told = news
    with database.desk(person.id, now) as desk:
        if desk.rounds.claim(due.id):
            desk.files.forget(due.key)
            owe(desk, _kept(desk, name, reading), due.key, edits=int(due.detail))


def _kept(desk: Desk, name: str, reading: asyncio.Future[ReadCalendar]) -> Reply:
    try:
        return keep_file(desk, PurePath(name).stem or name, reading.result())
    except CalendarUnavailable as error:
        return unread(name, error)
