"""What has changed since a period was handed in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from bot.rules.pay.day_sheet import DaySheet
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.timesheet import Timesheet
from storage.records import DayHandedIn, HandedIn


@dataclass(frozen=True, slots=True)
class ChangedDay:
    """A day that is not as it was handed in; None where there was, or is, no work."""

    day: date
    was: DayHandedIn | None
    now: DayHandedIn | None


@dataclass(frozen=True, slots=True)
class ChangedPay:
    """What a period's hours were to pay when it was handed in, and what they do now that a rate or the currency is another one."""

    was: Decimal
    was_in: str
    now: Decimal
    now_in: str


def pay_since(handed_in: HandedIn, sheet: Timesheet) -> ChangedPay | None:
    """How the pay of the ``sheet``, ruled as then, differs from what was handed in; None where either is not known.

    Where the overtime is another one too, its rules or hours elsewhere have changed, and not what an hour pays.
    """
    now, overtime = sheet.estimate, sum(each.minutes for each in sheet.overtime)
    if now is None or handed_in.gross is None or overtime != handed_in.overtime_minutes:
        return None
    same = (now.gross, now.currency) == (handed_in.gross, handed_in.currency)
    return None if same else ChangedPay(handed_in.gross, handed_in.currency, now.gross, now.currency)


def days_of(days: Iterable[DaySheet]) -> tuple[DayHandedIn, ...]:
    """The days of a timesheet as they are to be remembered when it is handed in."""
    return tuple(DayHandedIn(day.day, day.worked, day.paid) for day in days)


def ruled_as_then(job: JobRules, handed_in: HandedIn) -> JobRules:
    """The job with the rounding and the breaks by which the period was handed in: a rule that is new since changes no old period."""
    return replace(job, rounding=handed_in.rounding, breaks=handed_in.breaks)


def changed_since(handed_in: Iterable[DayHandedIn], days: Iterable[DaySheet]) -> tuple[ChangedDay, ...]:
    """The days that differ from what was handed in, in order."""
    was = {each.day: each for each in handed_in}
    now = {each.day: each for each in days_of(days)}
    return tuple(ChangedDay(day, was.get(day), now.get(day)) for day in sorted({*was, *now}) if was.get(day) != now.get(day))
