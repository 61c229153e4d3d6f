from __future__ import annotations

from datetime import date, time, timedelta

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.load import Load, clashes, clashing, lighter_days, load_of, outside_waking
from bot.rules.weeks import days_from
from storage.records import Occurrence
from tests.rules.made import BRUSSELS, MONDAY, occurrence

REST_OF_WEEK = days_from(MONDAY, date(2026, 3, 8))


def at(day: int, hour: int, *, id: int = 1, hours: int = 1, major: bool = True) -> Occurrence:
    """An occurrence on a day of March 2026."""
    return occurrence(f"2026-03-{day:02} {hour:02}:00", f"2026-03-{day:02} {hour + hours:02}:00", id=id, major=major)


def test_the_fourth_major_commitment_is_too_much_and_minor_ones_do_not_count() -> None:
    # Source: common practice, no source.
    three = [at(2, hour, id=hour) for hour in (8, 10, 12)]

    assert not load_of(MONDAY, [*three, at(2, 14, major=False)]).too_much
    assert load_of(MONDAY, [*three, at(2, 14)]) == Load(MONDAY, majors=4, commitments=4)
    assert load_of(MONDAY, [*three, at(2, 14)]).too_much
    assert load_of(MONDAY, [*three, at(3, 14)]) == Load(MONDAY, majors=3, commitments=3)


def test_lighter_days_have_that_part_of_day_free_and_the_fewest_commitments_come_first() -> None:
    moving = at(2, 14, id=9)
    others = [at(2, 8), at(2, 10), at(2, 12), at(3, 9, id=2), at(4, 13, id=3), at(5, 9, id=4), at(5, 19, id=5)]

    days = lighter_days(moving, [moving, *others], REST_OF_WEEK, BRUSSELS)

    assert days == (date(2026, 3, 6), date(2026, 3, 7), date(2026, 3, 8), date(2026, 3, 3), date(2026, 3, 5))


def test_a_day_with_three_majors_is_not_lighter_even_with_that_part_free() -> None:
    moving = at(2, 18, id=9)
    full = [at(3, hour, id=hour) for hour in (8, 10, 13)]

    assert lighter_days(moving, full, [date(2026, 3, 3)], BRUSSELS) == ()
    assert lighter_days(moving, full[:2], [date(2026, 3, 3)], BRUSSELS) == (date(2026, 3, 3),)


def test_a_part_is_not_free_when_something_runs_into_it() -> None:
    long_morning = at(3, 9, id=2, hours=5)

    assert lighter_days(at(2, 12, id=9), [long_morning], [date(2026, 3, 3)], BRUSSELS) == ()


def test_what_starts_too_early_or_ends_too_late_is_outside_the_waking_window() -> None:
    window = (time(6), time(21), BRUSSELS)

    assert outside_waking(at(2, 5), *window)
    assert outside_waking(at(2, 20, hours=2), *window)
    assert not outside_waking(at(2, 6), *window)
    assert not outside_waking(at(2, 20), *window)
    assert outside_waking(occurrence("2026-03-02 20:00", "2026-03-03 07:00"), *window)


def test_a_waking_window_that_ends_after_midnight_holds_what_comes_before_its_end() -> None:
    window = (time(22), time(8), BRUSSELS)

    assert not outside_waking(at(2, 2), *window)
    assert not outside_waking(occurrence("2026-03-02 23:00", "2026-03-03 02:00"), *window)
    assert outside_waking(at(2, 7, hours=2), *window)
    assert outside_waking(at(2, 12), *window)
    assert outside_waking(at(2, 21, hours=2), *window)


def test_a_clash_shares_time_and_touching_ends_do_not() -> None:
    shift, talk, lunch = at(2, 9, hours=3), at(2, 11, id=2), at(2, 12, id=3)

    assert clashing(talk, [shift, talk, lunch]) == (shift,)
    assert clashes([lunch, talk, shift]) == ((shift, talk),)


HOURS = st.tuples(st.integers(2, 8), st.integers(0, 20), st.integers(1, 3), st.booleans())


@given(st.lists(HOURS, max_size=25))
def test_moving_to_a_lighter_day_never_makes_it_too_much_nor_clashes(made: list[tuple[int, int, int, bool]]) -> None:
    moving = at(2, 13, id=99, hours=2)
    others = [at(day, hour, id=number, hours=hours, major=major) for number, (day, hour, hours, major) in enumerate(made)]

    for day in lighter_days(moving, [moving, *others], REST_OF_WEEK, BRUSSELS):
        later = day - moving.day
        moved = Occurrence(moving.commitment, day, moving.starts + later, moving.ends + later)
        assert later > timedelta(0)
        assert not load_of(day, [moved, *others]).too_much
        assert clashing(moved, others) == ()
