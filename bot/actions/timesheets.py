"""A job's hours in its pay period: to look at, to have as files, and to mark as handed in."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Final
from zoneinfo import ZoneInfo

from bot.actions.handed_in import changed_days, changed_pay, changed_periods
from bot.actions.jobs import job_meant, rules_for
from bot.actions.sheets import sheet_of, sheet_of_period, shifts_without_hours
from bot.actions.today import today
from bot.language.meaning import Form, SheetForm, Show
from bot.language.pay_meaning import HandIn, SendTimesheet
from bot.rules.pay.handed_in import days_of
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.timesheet import Timesheet
from bot.voice.manners import MARKS
from bot.voice.replies import Enclosing, PeriodHandedIn, Reply, TimesheetFile, TimesheetView, Together
from bot.voice.timesheet_words import SheetManners, file_name
from storage.desk import Desk
from storage.records import DateOrder, HandedIn, Job

FIRST_DAYS: Final = 6
"""The first days of a period are this part of it: the Monday of a week, five days of a month. Common practice, no source."""

FORMS: Final[tuple[SheetForm, ...]] = ("pdf", "xlsx", "csv")
"""The endings of the files that a timesheet comes as."""


def timesheet(desk: Desk, said: Show) -> Reply:
    """The job's days, totals and likely pay in the period asked for, by default today's. Raises Stopped."""
    job = job_meant(desk, said)
    rules = rules_for(desk, job)
    first, last = (said.first, said.last) if said.first and said.last else (said.day, said.day)
    sheet = sheet_of_period(desk, job, *period_said(desk, rules, replace(said, first=first, last=last)))
    kept = handed_in_of(desk, job, sheet)
    elsewhere = tuple(each for each in changed_periods(desk, job, rules) if each.handed_in != kept)
    payday = rules.payday_of(sheet.first) if rules.period_of(sheet.first) == (sheet.first, sheet.last) else None
    changed = changed_days(desk, rules, kept) if kept else ()
    pay = changed_pay(desk, rules, kept) if kept and not changed else None
    return TimesheetView(sheet, payday, kept, changed, elsewhere, pay, shifts_without_hours(desk, sheet))


def period_said(desk: Desk, rules: JobRules, said: Show | HandIn | SendTimesheet) -> tuple[date, date]:
    """The span asked for; of a single day its pay period; else the period that lies ``back`` before today's."""
    if said.first is not None and said.last is not None and said.first != said.last:
        return said.first, said.last
    day = said.first or today(desk)
    for _ in range(said.back):
        day = rules.period_before(day)[0]
    return rules.period_of(day)


def handed_in_of(desk: Desk, job: Job, sheet: Timesheet) -> HandedIn | None:
    """What was handed in for just these days, or None."""
    return desk.handed_in.exactly(job.id, sheet.first, sheet.last)


def hand_in(desk: Desk, said: HandIn) -> Reply:
    """Keeps the period's figures as they are now, in place of those of an earlier time. Raises Stopped."""
    job = job_meant(desk, said)
    rules = rules_for(desk, job)
    period, other = _periods_meant(desk, job, rules, said)
    sheet = sheet_of(desk, rules, *period)
    before = handed_in_of(desk, job, sheet)
    figures = HandedIn(
        id=before.id if before else 0,
        job_id=job.id,
        first=sheet.first,
        last=sheet.last,
        at=desk.now,
        days=days_of(sheet.days),
        rounding=job.rounding,
        breaks=job.breaks,
        overtime_minutes=sheet.overtime_minutes,
        gross=sheet.estimate.gross if sheet.estimate else None,
        currency=job.currency,
    )
    if before:
        desk.handed_in.change(figures)
    else:
        desk.handed_in.add(figures)
    missing = shifts_without_hours(desk, sheet)
    return PeriodHandedIn(sheet, anew=before is not None, still_open=sheet.last >= today(desk), missing=missing, other=other)


def _periods_meant(desk: Desk, job: Job, rules: JobRules, said: HandIn) -> tuple[tuple[date, date], tuple[date, date] | None]:
    """The period that is handed in, and the other one that may have been meant.

    Where none is said it is today's, or the one before: while today's has no hours, and in its first days if the one before
    waits to be handed in. Where both have hours, the other may have been meant.
    """
    now = period_said(desk, rules, said)
    if said.first is not None or said.back:
        return now, None
    ended = rules.period_before(now[0])
    has_hours, had_hours = (bool(desk.stints.minutes_by_day(job.category_id, *period)) for period in (now, ended))
    if not has_hours or not had_hours:
        return (ended if had_hours else now), None
    waits = desk.handed_in.exactly(job.id, *ended) is None
    just_begun = (today(desk) - now[0]) * FIRST_DAYS <= now[1] - now[0]
    if not waits:
        return now, None
    return (ended, now) if just_begun else (now, ended)


def send_timesheet(desk: Desk, said: SendTimesheet) -> Reply:
    """The period's timesheet as files, one message each. Raises Stopped."""
    job = job_meant(desk, said)
    sheet = sheet_of_period(desk, job, *period_said(desk, rules_for(desk, job), said))
    forms = tuple(form for form in FORMS if form in said.forms) or FORMS
    return Together(tuple(_enclosing(sheet, form) for form in forms))


def _enclosing(sheet: Timesheet, form: SheetForm) -> Enclosing:
    shown = Show("timesheet", first=sheet.first, last=sheet.last, category=sheet.job.name, form=form)
    return Enclosing(TimesheetFile(sheet, form), shown, file_name(sheet, form))


def timesheet_file(desk: Desk, asked: Show) -> bytes:
    """The file that ``asked`` names, with all of it said. Raises Stopped where the job is gone."""
    job = job_meant(desk, asked)
    sheet = sheet_of_period(desk, job, *period_said(desk, rules_for(desk, job), asked))
    return drawn_as(asked.form, sheet, SheetManners(ZoneInfo(desk.person.zone), desk.person.date_order, MARKS[desk.person.decimals]))


def drawn_as(form: Form | None, sheet: Timesheet, manners: SheetManners) -> bytes:
    """The timesheet as a file. What draws it is imported only here, so that a day without files does not wait for it."""
    if form == "csv":
        from bot.pictures.timesheet_csv import timesheet_csv

        return timesheet_csv(sheet, manners)
    if form == "xlsx":
        from bot.pictures.timesheet_xlsx import timesheet_xlsx

        return timesheet_xlsx(sheet, manners)
    from bot.pictures.paper import PaperSize
    from bot.pictures.timesheet_pdf import timesheet_pdf

    return timesheet_pdf(sheet, manners, PaperSize.LETTER if manners.date_order is DateOrder.MONTH_DAY else PaperSize.A4)
