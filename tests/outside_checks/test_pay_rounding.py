"""Rounding against published examples."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

import pytest

from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.rounding import decimal_hours, hundredths, nearest
from bot.rules.pay.timesheet import timesheet
from storage.records import BreakRule, Rounding, RoundingStep, Stint
from tests.rules.made import MONDAY

WORKSHOP = 1


@pytest.mark.parametrize(("minutes", "rounded"), [*((minute, 0) for minute in range(1, 8)), *((minute, 15) for minute in range(8, 15))])
def test_of_a_quarter_hour_seven_minutes_go_down_and_eight_go_up(minutes: int, rounded: int) -> None:
    # Source: 29 CFR 785.48(b), as Wage and Hour Division fact sheet 53 explains it: 1 to 7 down, 8 to 14 up.
    assert nearest(minutes, RoundingStep.QUARTER_HOUR) == rounded


# Source: University of Arizona, Financial Services, "Rounding Reported Hours": an hour's unpaid lunch, quarters of an hour.
ARIZONA = [
    ("07:55", "17:00", "8.00"),
    ("07:50", "17:00", "8.25"),
    ("08:04", "17:00", "8.00"),
    ("08:08", "17:00", "7.75"),
    ("08:00", "16:55", "8.00"),
    ("08:00", "16:47", "7.75"),
    ("08:00", "17:05", "8.00"),
    ("08:00", "17:09", "8.25"),
]


@pytest.mark.parametrize(("came", "left", "reported"), ARIZONA)
def test_punches_are_rounded_as_the_university_of_arizona_does(came: str, left: str, reported: str) -> None:
    starts, ends = (datetime.fromisoformat(f"{MONDAY} {at}").replace(tzinfo=UTC) for at in (came, left))
    minutes = (ends - starts).seconds // 60
    job = JobRules(WORKSHOP, "workshop", "Rolling Spoke", rounding=Rounding(RoundingStep.QUARTER_HOUR), breaks=(BreakRule(6 * 60, 60),))

    sheet = timesheet(job, MONDAY, MONDAY, [Stint(1, WORKSHOP, MONDAY, minutes, starts, ends)], "UTC")

    assert decimal_hours(sheet.paid) == Decimal(reported)
    assert sheet.worked == minutes


@pytest.mark.parametrize(("hours", "shown"), [("6.784999", "6.78"), ("6.865000", "6.87"), ("7.500000", "7.50")])
def test_hours_have_two_decimals_from_the_middle_up(hours: str, shown: str) -> None:
    # Source: Wage and Hour Division, opinion letter FLSA2019-9 of 1 July 2019.
    assert hundredths(Decimal(hours)) == Decimal(shown)


# Source: the table of tenths in use at United States universities; 3, 15, 27, 39 and 51 minutes lie in the middle.
TENTHS = [
    (0, 2, 0),
    (3, 8, 1),
    (9, 14, 2),
    (15, 20, 3),
    (21, 26, 4),
    (27, 32, 5),
    (33, 38, 6),
    (39, 44, 7),
    (45, 50, 8),
    (51, 56, 9),
    (57, 60, 10),
]


@pytest.mark.parametrize(("first", "last", "tenths"), TENTHS)
def test_tenths_of_an_hour_are_those_of_the_usual_table(first: int, last: int, tenths: int) -> None:
    assert {nearest(minutes, RoundingStep.TENTH_HOUR) for minutes in range(first, last + 1)} == {6 * tenths}


@pytest.mark.parametrize(
    ("minutes", "hundredth"),
    [(1, "0.02"), (2, "0.03"), (3, "0.05"), (5, "0.08"), (7, "0.12"), (10, "0.17"), (20, "0.33"), (35, "0.58"), (50, "0.83"), (59, "0.98")],
)
def test_minutes_are_shown_as_the_nearest_hundredth_of_an_hour(minutes: int, hundredth: str) -> None:
    # Source: the arithmetic, minutes over 60; no whole minute lies in the middle of two hundredths.
    assert decimal_hours(minutes) == Decimal(hundredth)
