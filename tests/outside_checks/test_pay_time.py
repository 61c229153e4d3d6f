"""Working time and nights over clock changes against published values."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo

import pytest

from bot.rules.local_time import elapsed_minutes
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.timesheet import timesheet
from bot.rules.pay.working_time import average_week
from storage.records import Rounding, RoundingStep, Stint
from tests.rules.made import MONDAY, minutes_by_day


def test_the_average_week_is_that_of_the_published_example() -> None:
    # Source: nidirect, "Calculating your working time", example one: 17 weeks of 40 hours and ten weeks of 12 hours of
    # overtime are 800 hours, 47.1 a week, within the limit.
    work = [Stint(0, 1, MONDAY + timedelta(weeks=week), 40 * 60) for week in range(17)]
    work += [Stint(0, 2, MONDAY + timedelta(weeks=week, days=1), 12 * 60) for week in range(10)]

    average = average_week(minutes_by_day(work), MONDAY + timedelta(weeks=17, days=-1))

    assert average is not None
    assert (average.minutes, average.weeks) == (800 * 60, 17)
    assert round(average.average / 60, 1) == Fraction("47.1")
    assert not average.too_long


# Source: tz database 2026f. A shift from 22:00 to 06:00 lasts the hours that really pass; 29 CFR 785 counts hours actually worked.
NIGHTS = [
    ("America/New_York", "2026-03-07", "7"),
    ("America/New_York", "2026-10-31", "9"),
    ("Europe/Berlin", "2026-03-28", "7"),
    ("Europe/Berlin", "2026-10-24", "9"),
    ("Australia/Lord_Howe", "2026-04-04", "8.5"),
    ("Australia/Lord_Howe", "2026-10-03", "7.5"),
    ("Africa/Cairo", "2026-04-23", "7"),
    ("Africa/Cairo", "2026-10-29", "9"),
    ("Asia/Beirut", "2026-03-28", "7"),
]


@pytest.mark.parametrize("rounding", [None, *(Rounding(step) for step in (RoundingStep.FIVE_MINUTES, RoundingStep.QUARTER_HOUR))])
@pytest.mark.parametrize(("zone", "evening", "hours"), NIGHTS)
def test_a_night_over_a_clock_change_counts_the_hours_that_pass(zone: str, evening: str, hours: str, rounding: Rounding | None) -> None:
    day = date.fromisoformat(evening)
    starts = datetime.combine(day, time(22), ZoneInfo(zone)).astimezone(UTC)
    ends = datetime.combine(day + timedelta(days=1), time(6), ZoneInfo(zone)).astimezone(UTC)
    shift = Stint(1, 1, day, elapsed_minutes(starts, ends), starts, ends)

    sheet = timesheet(JobRules(1, "museum", "Museum", rounding=rounding), day, day, [shift], zone)

    assert sheet.worked == sheet.paid == Fraction(hours) * 60
