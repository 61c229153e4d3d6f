"""A job's timesheet as its hours and rules are now, and what of its planned shifts has no hours yet."""

from __future__ import annotations

from datetime import date

from bot.actions.agenda import agenda
from bot.actions.jobs import all_rules, rules_for
from bot.rules.local_time import ONE_DAY
from bot.rules.pay.handed_in import ruled_as_then
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.timesheet import Timesheet, days_needed, timesheet
from bot.rules.unlogged import unlogged
from storage.desk import Desk
from storage.records import Job, Occurrence


def sheet_of(desk: Desk, rules: JobRules, first: date, last: date) -> Timesheet:
    """The timesheet from ``first`` to ``last``; other jobs of the same employer count towards its overtime."""
    others = [each for each in all_rules(desk) if each.category_id != rules.category_id]
    return timesheet(rules, first, last, desk.stints.between(*days_needed(rules, first, last)), desk.person.zone, others)


def sheet_of_period(desk: Desk, job: Job, first: date, last: date) -> Timesheet:
    """The job's timesheet; where just these days were handed in, by the rounding and breaks of then: a newer rule changes no old one."""
    rules, kept = rules_for(desk, job), desk.handed_in.exactly(job.id, first, last)
    return sheet_of(desk, ruled_as_then(rules, kept) if kept else rules, first, last)


def shifts_without_hours(desk: Desk, sheet: Timesheet) -> tuple[Occurrence, ...]:
    """The job's planned shifts of the sheet's days that are over and of which no hours tell, earliest first; of sick days none."""
    job = sheet.job.category_id
    fixed = (each for each in agenda(desk, sheet.first, sheet.last) if each.commitment.blocks_hours)
    shifts = [each for each in fixed if each.category_id == job]
    stints = desk.stints.for_category_between(job, sheet.first - ONE_DAY, sheet.last + ONE_DAY) if shifts else ()
    sick = {each.day for each in desk.sick_days.between(sheet.first, sheet.last)} if shifts else set()
    return unlogged((each for each in shifts if each.day not in sick), stints, desk.now)
