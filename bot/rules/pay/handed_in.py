"""What has changed since a period was handed in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from bot.rules.pay.timesheet import Timesheet
from storage.records import DayHandedIn


@dataclass(frozen=True, slots=True)
class ChangedDay:
    """A day that is not as it was handed in; None where there was, or is, no work."""

    day: date
    was: DayHandedIn | None
    now: DayHandedIn | None


def days_of(sheet: Timesheet) -> tuple[DayHandedIn, ...]:
    """The days of ``sheet`` as they are to be remembered when it is handed in."""
    return tuple(DayHandedIn(day.day, day.worked, day.paid) for day in sheet.days)


def changed_since(handed_in: Iterable[DayHandedIn], sheet: Timesheet) -> tuple[ChangedDay, ...]:
    """The days on which ``sheet`` differs from what was handed in, in order."""
    was = {each.day: each for each in handed_in}
    now = {each.day: each for each in days_of(sheet)}
    return tuple(ChangedDay(day, was.get(day), now.get(day)) for day in sorted({*was, *now}) if was.get(day) != now.get(day))
