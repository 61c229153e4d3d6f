from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.pay.job_rules import WEEKLY_OVERTIME, JobRules, Rate
from bot.rules.pay.timesheet import Overtime, days_needed, timesheet
from storage.records import BreakRule, PayPeriod, Rounded, Rounding, RoundingStep, Stint
from tests.rules.made import BRUSSELS, MONDAY, stint, wall

WORKSHOP, MUSEUM = 1, 2
SUNDAY = MONDAY + timedelta(days=6)
JOB = JobRules(WORKSHOP, "workshop", "Rolling Spoke")
PAID = replace(JOB, rates=(Rate(MONDAY, Decimal("14.50")),))
QUARTERS = Rounding(RoundingStep.QUARTER_HOUR)


def test_only_the_days_with_work_in_this_job_and_period_are_on_the_sheet() -> None:
    stints = [stint(WORKSHOP, MONDAY, 61), stint(MUSEUM, MONDAY, 90), stint(WORKSHOP, SUNDAY + timedelta(days=1), 30)]

    sheet = timesheet(JOB, MONDAY, SUNDAY, stints, BRUSSELS)

    assert [(day.day, day.worked, day.paid) for day in sheet.days] == [(MONDAY, 61, 61)]


def test_without_a_rate_there_are_hours_only() -> None:
    assert timesheet(JOB, MONDAY, SUNDAY, [stint(WORKSHOP, MONDAY, 60)], BRUSSELS).estimate is None


def test_a_day_before_the_first_rate_leaves_the_estimate_out() -> None:
    sheet = timesheet(PAID, MONDAY - timedelta(days=7), SUNDAY, [stint(WORKSHOP, MONDAY - timedelta(days=1), 60)], BRUSSELS)

    assert sheet.estimate is None


def test_a_day_before_the_first_rate_is_left_out_of_the_pay_of_the_others() -> None:
    early, later = stint(WORKSHOP, MONDAY - timedelta(days=1), 75), stint(WORKSHOP, MONDAY, 120)
    estimate = timesheet(PAID, MONDAY - timedelta(days=7), SUNDAY, [early, later], BRUSSELS).estimate

    alone = timesheet(PAID, MONDAY, SUNDAY, [later], BRUSSELS).estimate
    assert estimate is not None
    assert alone is not None
    assert (estimate.gross, estimate.unrated, alone.unrated) == (alone.gross, 75, 0)


def test_hours_before_and_after_a_rise_are_paid_at_their_own_rates() -> None:
    job = replace(JOB, rates=(Rate(MONDAY, Decimal("12")), Rate(MONDAY + timedelta(days=3), Decimal("13.50"))))
    stints = [stint(WORKSHOP, MONDAY + timedelta(days=day), 120) for day in (2, 3)]

    estimate = timesheet(job, MONDAY, SUNDAY, stints, BRUSSELS).estimate

    assert estimate is not None
    assert estimate.gross == Decimal("51.00")


def test_each_punch_is_rounded_and_the_stint_itself_is_not() -> None:
    noted = stint(WORKSHOP, MONDAY, 232, "2026-03-02 08:08")

    sheet = timesheet(replace(JOB, rounding=QUARTERS), MONDAY, SUNDAY, [noted], BRUSSELS)

    counted = sheet.days[0].stints[0]
    assert (counted.starts, counted.ends) == (wall("2026-03-02 08:15"), wall("2026-03-02 12:00"))
    assert (counted.stint, sheet.worked, sheet.paid) == (noted, 232, 225)


def test_of_a_day_the_sum_is_rounded_once() -> None:
    stints = [stint(WORKSHOP, MONDAY, 52), stint(WORKSHOP, MONDAY, 52)]

    by_day = timesheet(replace(JOB, rounding=Rounding(RoundingStep.QUARTER_HOUR, Rounded.DAYS)), MONDAY, SUNDAY, stints, BRUSSELS)
    by_punch = timesheet(replace(JOB, rounding=QUARTERS), MONDAY, SUNDAY, stints, BRUSSELS)

    assert (by_day.paid, by_punch.paid) == (105, 90)


def test_the_employers_break_is_taken_off_a_long_day_once() -> None:
    job = replace(JOB, breaks=(BreakRule(6 * 60, 30),))
    stints = [stint(WORKSHOP, MONDAY, 200), stint(WORKSHOP, MONDAY, 200), stint(WORKSHOP, SUNDAY, 200)]

    sheet = timesheet(job, MONDAY, SUNDAY, stints, BRUSSELS)

    assert (sheet.worked, sheet.taken_off, sheet.paid) == (600, 30, 570)


def test_overtime_of_a_week_that_ends_after_the_month_is_paid_with_the_next() -> None:
    # Source: 29 CFR 778.106: overtime is paid with the period in which its workweek ends.
    job = replace(PAID, pay_period=PayPeriod.MONTHLY, overtime=WEEKLY_OVERTIME, rates=(Rate(date(2026, 1, 1), Decimal("10")),))
    monday = date(2026, 3, 30)
    stints = [stint(WORKSHOP, monday + timedelta(days=day), 11 * 60) for day in range(4)]

    march = timesheet(job, date(2026, 3, 1), date(2026, 3, 31), stints, BRUSSELS)
    april = timesheet(job, date(2026, 4, 1), date(2026, 4, 30), stints, BRUSSELS)

    assert (march.paid, march.overtime) == (22 * 60, ())
    assert (april.paid, april.overtime) == (22 * 60, (Overtime(Decimal("1.5"), 4 * 60),))
    assert march.estimate is not None
    assert april.estimate is not None
    assert (march.estimate.gross, april.estimate.gross) == (Decimal("220.00"), Decimal("240.00"))


def test_a_sheet_needs_the_days_from_its_first_workweek_on() -> None:
    assert days_needed(JOB, date(2026, 4, 1), date(2026, 4, 30)) == (date(2026, 3, 30), date(2026, 4, 30))


def test_overtime_beside_a_job_without_a_rate_leaves_the_estimate_out() -> None:
    job = replace(PAID, overtime=WEEKLY_OVERTIME)
    tours = JobRules(MUSEUM, "tours", JOB.employer)
    stints = [stint(MUSEUM, MONDAY + timedelta(days=day), 480) for day in range(5)] + [stint(WORKSHOP, SUNDAY, 60)]

    sheet = timesheet(job, MONDAY, SUNDAY, stints, BRUSSELS, [tours])

    assert (sheet.overtime, sheet.estimate) == ((Overtime(Decimal("1.5"), 60),), None)


NOTED = st.lists(
    st.builds(
        lambda day, minutes, pause: Stint(0, WORKSHOP, MONDAY + timedelta(days=day), minutes, break_minutes=pause),
        st.integers(0, 13),
        st.integers(1, 600),
        st.integers(0, 60),
    ),
    max_size=30,
)
JOBS = st.builds(
    lambda step, what, after: replace(JOB, rounding=Rounding(step, what), breaks=(BreakRule(after, 30),)),
    st.sampled_from(list(RoundingStep)),
    st.sampled_from(list(Rounded)),
    st.integers(0, 600),
)


@given(NOTED, JOBS)
def test_the_days_add_up_to_the_period_in_exact_minutes(stints: list[Stint], job: JobRules) -> None:
    sheet = timesheet(job, MONDAY, SUNDAY, stints, BRUSSELS)

    assert sheet.worked == sum(day.worked for day in sheet.days) == sum(each.minutes for each in stints if each.day <= SUNDAY)
    assert sheet.paid == sum(day.paid for day in sheet.days)


@given(NOTED, JOBS)
def test_two_weeks_add_up_to_the_fortnight(stints: list[Stint], job: JobRules) -> None:
    week = timedelta(days=7)
    parts = [timesheet(job, first, first + week - timedelta(days=1), stints, BRUSSELS) for first in (MONDAY, MONDAY + week)]

    whole = timesheet(job, MONDAY, MONDAY + 2 * week - timedelta(days=1), stints, BRUSSELS)

    assert (whole.worked, whole.paid) == (sum(part.worked for part in parts), sum(part.paid for part in parts))


@given(st.integers(0, 1000), st.integers(2, 600), st.data(), st.sampled_from([None, *(Rounding(step) for step in RoundingStep)]))
def test_splitting_a_stint_in_two_changes_no_total(minute: int, minutes: int, data: st.DataObject, rounding: Rounding | None) -> None:
    cut = data.draw(st.integers(1, minutes - 1))
    starts = datetime(2026, 3, 2, tzinfo=UTC) + timedelta(minutes=minute)
    whole = Stint(1, WORKSHOP, MONDAY, minutes, starts, starts + timedelta(minutes=minutes))
    middle = starts + timedelta(minutes=cut)
    halves = [replace(whole, minutes=cut, ends=middle), replace(whole, id=2, minutes=minutes - cut, starts=middle)]
    job = replace(PAID, rounding=rounding, breaks=(BreakRule(360, 30),))

    one, two = (timesheet(job, MONDAY, SUNDAY, stints, BRUSSELS) for stints in ([whole], halves))

    assert (one.worked, one.paid, one.taken_off, one.estimate) == (two.worked, two.paid, two.taken_off, two.estimate)


@pytest.mark.parametrize("what", list(Rounded))
@given(NOTED)
def test_the_order_in_which_stints_come_does_not_matter(what: Rounded, stints: list[Stint]) -> None:
    job = replace(PAID, rounding=Rounding(RoundingStep.QUARTER_HOUR, what))
    numbered = [replace(each, id=number) for number, each in enumerate(stints)]

    assert timesheet(job, MONDAY, SUNDAY, numbered, BRUSSELS) == timesheet(job, MONDAY, SUNDAY, reversed(numbered), BRUSSELS)
