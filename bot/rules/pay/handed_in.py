"""What has changed since a period was handed in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from bot.rules.pay.day_sheet import DaySheet
from bot.rules.pay.job_rules import JobRules
from storage.records import DayHandedIn, HandedIn


@dataclass(frozen=True, slots=True)
class ChangedDay:
    """A day that is not as it was handed in; None where there was, or is, no work."""

    day: date
    was: DayHandedIn | None
    now: DayHandedIn | None


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
