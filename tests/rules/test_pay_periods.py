from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.pay.job_rules import JobRules, days_to, same_employer
from bot.rules.pay.periods import pay_period_of, workweeks_ending_in
from storage.records import PayPeriod, Weekday

DAYS = st.dates(date(1990, 1, 1), date(2050, 1, 1))
PERIODS = st.sampled_from(list(PayPeriod))
WEEKDAYS = st.sampled_from(list(Weekday))


@pytest.mark.parametrize(
    ("period", "day", "first", "last"),
    [
        (PayPeriod.WEEKLY, "2026-03-04", "2026-03-02", "2026-03-08"),
        (PayPeriod.EVERY_TWO_WEEKS, "2026-03-11", "2026-03-02", "2026-03-15"),
        (PayPeriod.EVERY_TWO_WEEKS, "2026-03-01", "2026-02-16", "2026-03-01"),
        (PayPeriod.FOUR_WEEKLY, "2026-03-29", "2026-03-02", "2026-03-29"),
        (PayPeriod.TWICE_A_MONTH, "2026-02-15", "2026-02-01", "2026-02-15"),
        (PayPeriod.TWICE_A_MONTH, "2028-02-16", "2028-02-16", "2028-02-29"),
        (PayPeriod.MONTHLY, "2026-02-28", "2026-02-01", "2026-02-28"),
    ],
)
def test_a_day_is_in_the_period_that_the_calendar_shows(period: PayPeriod, day: str, first: str, last: str) -> None:
    # Source for the kinds: Bureau of Labor Statistics, "Length of pay periods in the Current Employment Statistics survey".
    found = pay_period_of(date.fromisoformat(day), period, Weekday.MONDAY, date(2026, 3, 4))

    assert found == (date.fromisoformat(first), date.fromisoformat(last))


@given(DAYS, PERIODS, WEEKDAYS, DAYS)
def test_periods_hold_their_days_and_follow_each_other_without_a_hole(day: date, period: PayPeriod, starts: Weekday, anchor: date) -> None:
    first, last = pay_period_of(day, period, starts, anchor)

    assert first <= day <= last
    assert {pay_period_of(each, period, starts, anchor) for each in (first, last)} == {(first, last)}
    assert pay_period_of(last + timedelta(days=1), period, starts, anchor)[0] == last + timedelta(days=1)


@pytest.mark.parametrize(
    ("starts", "day", "first", "last"),
    [
        (21, "2026-10-20", "2026-09-21", "2026-10-20"),
        (21, "2026-10-21", "2026-10-21", "2026-11-20"),
        (21, "2026-01-05", "2025-12-21", "2026-01-20"),
        (31, "2026-02-27", "2026-01-31", "2026-02-27"),
        (31, "2026-02-28", "2026-02-28", "2026-03-30"),
        (30, "2028-02-29", "2028-02-29", "2028-03-29"),
        (29, "2026-03-01", "2026-02-28", "2026-03-28"),
    ],
)
def test_a_monthly_period_begins_on_the_day_agreed_or_a_shorter_months_last(starts: int, day: str, first: str, last: str) -> None:
    # Source: common practice, no source.
    found = pay_period_of(date.fromisoformat(day), PayPeriod.MONTHLY, Weekday.MONDAY, month_starts=starts)

    assert found == (date.fromisoformat(first), date.fromisoformat(last))


@given(DAYS, st.integers(1, 31))
def test_monthly_periods_tile_the_days_and_each_begins_in_a_month_of_its_own(day: date, starts: int) -> None:
    first, last = pay_period_of(day, PayPeriod.MONTHLY, Weekday.MONDAY, month_starts=starts)
    following = pay_period_of(last + timedelta(days=1), PayPeriod.MONTHLY, Weekday.MONDAY, month_starts=starts)

    assert first <= day <= last
    assert {pay_period_of(each, PayPeriod.MONTHLY, Weekday.MONDAY, month_starts=starts) for each in (first, last)} == {(first, last)}
    assert following[0] == last + timedelta(days=1)
    assert (following[0].year * 12 + following[0].month) - (first.year * 12 + first.month) == 1
    assert first.day == starts or (first.day < starts and (first + timedelta(days=1)).day == 1)


@given(PERIODS, WEEKDAYS, DAYS, st.integers(1, 30))
def test_every_workweek_ends_in_exactly_one_period(period: PayPeriod, starts: Weekday, day: date, periods: int) -> None:
    weeks: list[tuple[date, date]] = []
    first = pay_period_of(day, period, starts)[0]
    for _ in range(periods):
        first, last = pay_period_of(first, period, starts)
        weeks += workweeks_ending_in(first, last, starts)
        first = last + timedelta(days=1)

    assert all(ends - begins == timedelta(days=6) and begins.weekday() == starts for begins, ends in weeks)
    assert all(one[0] + timedelta(days=7) == other[0] for one, other in pairwise(weeks))


def test_a_year_of_fifty_three_weeks_has_fifty_three_weekly_periods() -> None:
    # Source: ISO 8601: 2026 has 53 weeks, the last one from 2026-12-28 to 2027-01-03.
    days = [date(2026, 1, 1) + timedelta(days=number) for number in range(365)]

    periods = {pay_period_of(day, PayPeriod.WEEKLY, Weekday.MONDAY) for day in days}

    assert len(periods) == 53
    assert max(periods) == (date(2026, 12, 28), date(2027, 1, 3))


def test_a_job_knows_the_period_before_and_its_payday() -> None:
    job = JobRules(1, "museum", "Museum", PayPeriod.TWICE_A_MONTH, payday_after=5)

    assert job.period_before(date(2026, 3, 10)) == (date(2026, 2, 16), date(2026, 2, 28))
    assert job.payday_of(date(2026, 3, 10)) == date(2026, 3, 20)
    assert JobRules(1, "museum", "Museum").payday_of(date(2026, 3, 10)) is None


def test_an_employer_is_the_same_however_its_name_is_typed() -> None:
    assert same_employer(JobRules(1, "desk", "Museum of Canals"), JobRules(2, "tours", " museum of canals"))
    assert not same_employer(JobRules(1, "desk", "Museum of Canals"), JobRules(2, "tours", "Museum of Locks"))


@given(DAYS, st.integers(1, 31), st.integers(1, 31))
def test_a_payday_by_the_day_of_the_month_falls_on_it_after_every_period(day: date, starts: int, on: int) -> None:
    rules = JobRules(1, "museum", "Museum", PayPeriod.MONTHLY, month_starts=starts)
    after = days_to(rules, on)
    if after is not None:
        assert (rules.period_of(day)[1] + timedelta(days=after)).day == on
    assert days_to(JobRules(1, "museum", "Museum", PayPeriod.WEEKLY), on) is None
