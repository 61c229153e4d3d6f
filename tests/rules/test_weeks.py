"""Weeks and months beside published values and beside the standard library."""

from __future__ import annotations

from calendar import monthrange
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.weeks import (
    days_from,
    first_of_month,
    first_of_next_month,
    first_of_week,
    iso_week,
    last_of_month,
    last_of_week,
    week_after,
    week_days,
)
from storage.records import Weekday

DAYS = st.dates(date(1900, 1, 1), date(2100, 12, 31))


# Source: the table of examples in "ISO week date", taken from ISO 8601:2004, clauses 2.2.10 and 4.1.4.
@pytest.mark.parametrize(
    ("day", "year", "week"),
    [
        ("2005-01-01", 2004, 53),
        ("2005-01-02", 2004, 53),
        ("2005-12-31", 2005, 52),
        ("2006-01-01", 2005, 52),
        ("2006-01-02", 2006, 1),
        ("2007-01-01", 2007, 1),
        ("2007-12-31", 2008, 1),
        ("2008-12-28", 2008, 52),
        ("2008-12-29", 2009, 1),
        ("2009-12-31", 2009, 53),
        ("2010-01-03", 2009, 53),
        ("2010-01-04", 2010, 1),
    ],
)
def test_an_iso_week_is_the_published_one(day: str, year: int, week: int) -> None:
    assert iso_week(date.fromisoformat(day)) == (year, week)


# Source: the list of years with 53 weeks in the same table; 28 December is always in a year's last week.
def test_exactly_the_published_years_have_fifty_three_weeks() -> None:
    long_years = [year for year in range(2001, 2041) if iso_week(date(year, 12, 28))[1] == 53]

    assert long_years == [2004, 2009, 2015, 2020, 2026, 2032, 2037]


# Source: 2 March 2026 is a Monday (ISO 8601 week 2026-W10-1).
def test_the_week_starts_on_the_day_the_person_chose() -> None:
    thursday = date(2026, 3, 5)

    assert first_of_week(thursday, Weekday.MONDAY) == date(2026, 3, 2)
    assert first_of_week(thursday, Weekday.SUNDAY) == date(2026, 3, 1)
    assert first_of_week(thursday, Weekday.THURSDAY) == thursday
    assert first_of_week(thursday, Weekday.FRIDAY) == date(2026, 2, 27)
    assert last_of_week(thursday, Weekday.MONDAY) == date(2026, 3, 8)


@given(DAYS, st.sampled_from(Weekday))
def test_a_week_has_seven_days_starts_on_its_weekday_and_holds_the_day(day: date, week_starts: Weekday) -> None:
    days = week_days(day, week_starts)

    assert day in days
    assert days[0].weekday() == week_starts
    assert list(days) == [days[0] + timedelta(days=number) for number in range(7)]
    assert week_after(days[0]) == days[-1] + timedelta(days=1)
    assert all(week_days(each, week_starts) == days for each in days)


@given(DAYS)
def test_a_month_is_as_long_as_the_standard_library_says(day: date) -> None:
    assert len(days_from(first_of_month(day), last_of_month(day))) == monthrange(day.year, day.month)[1]
    assert first_of_next_month(day) == last_of_month(day) + timedelta(days=1)
    assert first_of_next_month(day).day == 1


def test_a_span_that_ends_before_it_starts_has_no_days() -> None:
    assert days_from(date(2026, 3, 2), date(2026, 3, 1)) == ()
