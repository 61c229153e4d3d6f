"""The latest days stay and one copy of each of the latest weeks; nothing else does."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from storage.rotation import Rotation, staying

TODAY = date(2026, 3, 31)
DAYS = st.sets(st.dates(date(2026, 1, 1), date(2026, 4, 30)), max_size=60)
ROTATIONS = st.builds(Rotation, st.integers(0, 10), st.integers(0, 8))


def test_of_two_months_of_days_a_week_of_days_and_four_sundays_stay() -> None:
    days = [TODAY - timedelta(days=number) for number in range(60)]
    sundays = [date(2026, 3, 29), date(2026, 3, 22), date(2026, 3, 15)]
    assert staying(days, TODAY, Rotation(7, 4)) == {*days[:7], *sundays}


@given(DAYS, ROTATIONS)
def test_the_latest_days_stay_and_no_more_than_asked_for(days: set[date], rotation: Rotation) -> None:
    stay = staying(days, TODAY, rotation)
    past = sorted(day for day in days if day <= TODAY)
    assert stay <= days
    assert set(past[-rotation.daily :] if rotation.daily else []) <= stay
    assert len([day for day in stay if day <= TODAY]) <= rotation.daily + rotation.weekly
    assert {day for day in days if day > TODAY} <= stay


@given(DAYS, ROTATIONS)
def test_each_of_the_latest_weeks_with_a_copy_keeps_its_newest(days: set[date], rotation: Rotation) -> None:
    past = [day for day in days if day <= TODAY]
    weeks = sorted({day - timedelta(days=day.weekday()) for day in past}, reverse=True)[: rotation.weekly]
    newest = {max(day for day in past if day - timedelta(days=day.weekday()) == week) for week in weeks}
    assert newest <= staying(days, TODAY, rotation)


@given(DAYS, ROTATIONS)
def test_what_stayed_once_stays_when_looked_at_again(days: set[date], rotation: Rotation) -> None:
    stay = staying(days, TODAY, rotation)
    assert staying(stay, TODAY, rotation) == stay
