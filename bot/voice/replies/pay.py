"""Paid work: what is settled for a job, its timesheet, and what was handed in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from bot.language.meaning import SheetForm
from bot.rules.pay.handed_in import ChangedDay, ChangedPay
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.timesheet import Timesheet
from bot.rules.pay.working_time import AverageWeek, MissingHours, NoBreak, ShortRest
from bot.voice.replies.reply import Reply
from storage.records import HandedIn, Occurrence

Settled = Literal["new", "rates", "rounding", "breaks", "pay period", "payday", "overtime", "workweek", "currency", "employer"]


@dataclass(frozen=True, slots=True)
class JobShown:
    """A job, the pay period of today, the next payday where it is known, and whether its eve is told of."""

    job: JobRules
    first: date
    last: date
    payday: date | None
    remind: bool


@dataclass(frozen=True, slots=True)
class JobKept(Reply):
    """Something was settled for a job: ``what``. ``midweek`` is the day said for a period of weeks where no workweek begins on it."""

    shown: JobShown
    what: Settled
    midweek: date | None = None


@dataclass(frozen=True, slots=True)
class JobsView(Reply):
    """All that is settled for one job or each."""

    jobs: tuple[JobShown, ...]


@dataclass(frozen=True, slots=True)
class ReminderKept(Reply):
    """Of which jobs payday's eve is told, or is no longer."""

    on: bool
    jobs: tuple[JobShown, ...]


@dataclass(frozen=True, slots=True)
class ChangedPeriod:
    """A period that is not as it was handed in: on some ``days``, or in its ``pay`` alone."""

    job: str
    handed_in: HandedIn
    days: tuple[ChangedDay, ...] = ()
    pay: ChangedPay | None = None


@dataclass(frozen=True, slots=True)
class TimesheetView(Reply):
    """``handed_in`` when it was; ``changed`` are the days that differ since, or the ``pay`` alone; ``elsewhere`` the job's other
    periods that do. ``missing`` are planned shifts without hours.
    """

    sheet: Timesheet
    payday: date | None = None
    handed_in: HandedIn | None = None
    changed: tuple[ChangedDay, ...] = ()
    elsewhere: tuple[ChangedPeriod, ...] = ()
    pay: ChangedPay | None = None
    missing: tuple[Occurrence, ...] = ()


@dataclass(frozen=True, slots=True)
class EarningsView(Reply):
    """What each job's hours from ``first`` to ``last`` are likely to pay."""

    first: date
    last: date
    sheets: tuple[Timesheet, ...]


@dataclass(frozen=True, slots=True)
class TimesheetFile(Reply):
    """A timesheet as a file of this ``form``."""

    sheet: Timesheet
    form: SheetForm


@dataclass(frozen=True, slots=True)
class PeriodHandedIn(Reply):
    """``anew`` when it had been before; ``missing`` are planned shifts without hours; ``other`` is the period that may have been meant."""

    sheet: Timesheet
    anew: bool = False
    still_open: bool = False
    missing: tuple[Occurrence, ...] = ()
    other: tuple[date, date] | None = None


@dataclass(frozen=True, slots=True)
class PaydayEve(Reply):
    """What is paid tomorrow, and of each period whether it was handed in."""

    payday: date
    periods: tuple[tuple[Timesheet, bool], ...]
    late: bool = False


@dataclass(frozen=True, slots=True)
class WorkNotes:
    """What to look at in a week's working time, over all jobs, with the jobs' names; and the periods changed since they were handed in."""

    missing: tuple[tuple[str, MissingHours], ...] = ()
    overlaps: tuple[tuple[date, str, str], ...] = ()
    average: AverageWeek | None = None
    rests: tuple[ShortRest, ...] = ()
    breaks: tuple[NoBreak, ...] = ()
    changed: tuple[ChangedPeriod, ...] = ()


NOTHING_TO_NOTE = WorkNotes()
