"""Paid work by itself: a word on payday's eve, and the files of a timesheet."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bot.actions.paydays import payday_tomorrow, sheet_asked_for
from bot.owing import owe, owe_file
from bot.rounds.daily import begin, is_late
from bot.rounds.lookouts import Lookouts
from bot.rounds.off_loop import off_loop
from bot.rules.local_time import local_day
from bot.rules.pay.timesheet import Timesheet
from bot.voice.timesheet_said import file_caption
from bot.voice.timesheet_words import SheetManners, file_name
from storage.database import Database
from storage.records import DateOrder, Person, Round


async def payday_eve(database: Database, lookouts: Lookouts, person: Person, due: Round, now: datetime) -> None:
    """What is paid tomorrow, where the person wants to be told; until midnight."""
    with database.desk(person.id, now) as desk:
        day = date.fromisoformat(due.key)
        if begin(desk, due, local_day(now, person.zone) == day):
            reply = payday_tomorrow(desk, day + timedelta(days=1), late=is_late(due, now))
            if reply is not None:
                owe(desk, reply, round=due.kind.value)


async def timesheet_files(database: Database, lookouts: Lookouts, person: Person, due: Round, now: datetime) -> None:
    """Draws the files that were asked for, off the loop, and owes them one by one; none where the job is gone."""
    with database.desk(person.id, now) as desk:
        asked = sheet_asked_for(desk, due.detail)
        manners = SheetManners(asked.zone, person.date_order) if asked else None
    if asked is None or manners is None:
        with database.desk(person.id, now) as desk:
            desk.rounds.claim(due.id)
        return
    drawn = await off_loop(lambda: tuple((form, drawn_as(form, asked.sheet, manners)) for form in asked.forms))
    with database.desk(person.id, now) as desk:
        if desk.rounds.claim(due.id):
            for form, content in drawn:
                owe_file(desk, file_name(asked.sheet, form), content, file_caption(asked.sheet, form, manners))


def drawn_as(form: str, sheet: Timesheet, manners: SheetManners) -> bytes:
    """The timesheet as a file. What draws it is imported only here, because a day without files should not wait for it."""
    if form == "csv":
        from bot.pictures.timesheet_csv import timesheet_csv

        return timesheet_csv(sheet, manners)
    if form == "xlsx":
        from bot.pictures.timesheet_xlsx import timesheet_xlsx

        return timesheet_xlsx(sheet, manners)
    from bot.pictures.paper import PaperSize
    from bot.pictures.timesheet_pdf import timesheet_pdf

    return timesheet_pdf(sheet, manners, PaperSize.LETTER if manners.date_order is DateOrder.MONTH_DAY else PaperSize.A4)
