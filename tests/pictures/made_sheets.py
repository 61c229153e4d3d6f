"""Timesheets that the tests of their files hand in."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

from bot.rules.pay.job_rules import WEEKLY_OVERTIME, JobRules, Rate
from bot.rules.pay.timesheet import Timesheet, timesheet
from bot.voice.timesheet_words import SheetManners
from storage.records import BreakRule, PayPeriod, Rounding, RoundingStep, Stint
from tests.rules.made import BRUSSELS, MONDAY, stint, wall

MUSEUM, TOURS = 2, 3
MANNERS = SheetManners(ZoneInfo(BRUSSELS), name="Noor Peeters")
LAST = MONDAY + timedelta(days=13)

DESK = JobRules(
    MUSEUM,
    "museum",
    "Museum of Canals and Locks",
    PayPeriod.EVERY_TWO_WEEKS,
    anchor=MONDAY,
    rounding=Rounding(RoundingStep.QUARTER_HOUR),
    breaks=(BreakRule(6 * 60, 30),),
    rates=(Rate(date(2026, 1, 1), Decimal("14.50")), Rate(MONDAY + timedelta(days=9), Decimal("15.25"))),
    overtime=WEEKLY_OVERTIME,
)
"""Two weeks at the front desk, with a rise in the second."""

GUIDED = JobRules(TOURS, "guided tours", "Museum of Canals and Locks", rates=(Rate(date(2026, 1, 1), Decimal("18.40")),))
"""Another job for the same employer."""


def stints() -> list[Stint]:
    """Forty-three hours and more in the first week with the tours, a few in the second."""
    shifts = [replace(stint(MUSEUM, MONDAY + timedelta(days=day), 487, f"2026-03-0{2 + day} 08:53"), id=day + 1) for day in range(4)]
    friday = MONDAY + timedelta(days=4)
    shifts.append(Stint(5, MUSEUM, friday, 440, wall("2026-03-06 09:00"), wall("2026-03-06 16:50"), 30, note="=SUM(A1:A9)"))
    shifts.append(Stint(6, TOURS, friday + timedelta(days=1), 300, wall("2026-03-07 10:00"), wall("2026-03-07 15:00")))
    shifts.append(Stint(7, MUSEUM, friday + timedelta(days=2), 95, wall("2026-03-08 13:02"), wall("2026-03-08 14:37"), note="Cloakroom"))
    return [*shifts, Stint(8, MUSEUM, MONDAY + timedelta(days=10), 200, note="-2 lockers broken")]


def usual() -> Timesheet:
    """The two weeks' sheet of the front desk."""
    return timesheet(DESK, MONDAY, LAST, stints(), BRUSSELS, [GUIDED])


def hours_only() -> Timesheet:
    """The same without a rate."""
    return timesheet(replace(DESK, rates=()), MONDAY, LAST, stints(), BRUSSELS)


def empty() -> Timesheet:
    """Two weeks without work."""
    return timesheet(DESK, MONDAY, LAST, [], BRUSSELS)
