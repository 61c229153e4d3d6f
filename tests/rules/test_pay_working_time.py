from __future__ import annotations

from datetime import timedelta
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.pay.working_time import MissingHours, NoBreak, average_week, missed_breaks, missing_hours, overlaps_of_jobs, short_rests
from storage.records import Stint
from tests.rules.made import MONDAY, minutes_by_day, occurrence, stint, wall

WORKSHOP, MUSEUM, FAMILY = 1, 2, 3
TUESDAY = MONDAY + timedelta(days=1)


def test_more_than_48_hours_a_week_over_both_jobs_is_too_long() -> None:
    # Source: gov.uk, "Maximum weekly working hours": the hours of two jobs are taken together, at most 48 a week on average.
    work = [stint(job, MONDAY + timedelta(weeks=week), 24 * 60) for week in range(17) for job in (WORKSHOP, MUSEUM)]
    until = MONDAY + timedelta(weeks=17, days=-1)
    at_the_limit, over = average_week(minutes_by_day(work), until), average_week(minutes_by_day([*work, stint(MUSEUM, until, 1)]), until)

    assert at_the_limit is not None
    assert not at_the_limit.too_long
    assert over is not None
    assert over.too_long


def test_someone_new_is_averaged_over_the_weeks_since_the_first_day() -> None:
    average = average_week({MONDAY: 600, MONDAY + timedelta(days=8): 600}, MONDAY + timedelta(days=8))

    assert average is not None
    assert (average.first, average.weeks, average.average) == (MONDAY, 2, Fraction(600))


def test_work_before_the_seventeen_weeks_does_not_count() -> None:
    until = MONDAY + timedelta(weeks=20, days=-1)
    average = average_week(minutes_by_day([stint(WORKSHOP, MONDAY, 6000), stint(WORKSHOP, until, 60)]), until)

    assert average is not None
    assert (average.first, average.weeks, average.minutes) == (MONDAY + timedelta(weeks=3), 17, 60)
    assert average_week(minutes_by_day([]), until) is None


def test_a_late_evening_before_an_early_morning_is_a_short_rest() -> None:
    late = stint(MUSEUM, MONDAY, 240, "2026-03-02 18:30")
    early = stint(WORKSHOP, TUESDAY, 240, "2026-03-03 08:00")

    rests = short_rests([early, late])

    assert [(rest.ended, rest.started, rest.minutes) for rest in rests] == [(late.ends, early.starts, 9 * 60 + 30)]


def test_eleven_hours_are_enough() -> None:
    assert not short_rests([stint(MUSEUM, MONDAY, 240, "2026-03-02 18:00"), stint(WORKSHOP, TUESDAY, 60, "2026-03-03 09:00")])


def test_time_between_two_jobs_of_one_day_is_no_rest_between_days() -> None:
    assert not short_rests([stint(WORKSHOP, MONDAY, 240, "2026-03-02 08:00"), stint(MUSEUM, MONDAY, 180, "2026-03-02 17:00")])


def test_a_night_noted_in_two_parts_is_one_workday() -> None:
    before = stint(MUSEUM, MONDAY, 120, "2026-03-02 22:00")
    after = stint(MUSEUM, TUESDAY, 360, "2026-03-03 00:00")

    assert not short_rests([before, after])


def test_a_rest_over_a_clock_change_is_the_hours_that_pass() -> None:
    # Source: tz database, rule EU: the night before 29 March 2026 is an hour short in Brussels.
    saturday = MONDAY + timedelta(days=26)
    work = [stint(WORKSHOP, saturday, 60, "2026-03-28 20:00"), stint(WORKSHOP, saturday + timedelta(days=1), 60, "2026-03-29 08:30")]

    assert [rest.minutes for rest in short_rests(work)] == [10 * 60 + 30]


@pytest.mark.parametrize(
    ("day", "missed"),
    [
        ([stint(WORKSHOP, MONDAY, 361, "2026-03-02 08:00")], 361),
        ([stint(WORKSHOP, MONDAY, 360, "2026-03-02 08:00")], None),
        ([stint(WORKSHOP, MONDAY, 400)], 400),
        ([stint(WORKSHOP, MONDAY, 240, "2026-03-02 08:00"), stint(MUSEUM, MONDAY, 240, "2026-03-02 12:10")], 480),
        ([stint(WORKSHOP, MONDAY, 240, "2026-03-02 08:00"), stint(MUSEUM, MONDAY, 240, "2026-03-02 12:20")], None),
        ([Stint(1, WORKSHOP, MONDAY, 450, wall("2026-03-02 08:00"), wall("2026-03-02 15:50"), 20)], None),
        ([Stint(1, WORKSHOP, MONDAY, 450, wall("2026-03-02 08:00"), wall("2026-03-02 15:49"), 19)], 450),
    ],
)
def test_more_than_six_hours_of_work_call_for_a_break(day: list[Stint], missed: int | None) -> None:
    assert missed_breaks(day) == (() if missed is None else (NoBreak(MONDAY, missed),))


def test_two_jobs_at_the_same_time_are_pointed_out() -> None:
    workshop = stint(WORKSHOP, MONDAY, 240, "2026-03-02 08:00")
    museum = stint(MUSEUM, MONDAY, 240, "2026-03-02 11:45")
    later = stint(WORKSHOP, MONDAY, 60, "2026-03-02 15:45")

    assert overlaps_of_jobs([later, museum, workshop]) == ((workshop, museum),)


@given(st.lists(st.tuples(st.sampled_from([WORKSHOP, MUSEUM]), st.integers(0, 100), st.integers(1, 40)), max_size=12))
def test_no_pair_of_overlapping_jobs_is_missed(drawn: list[tuple[int, int, int]]) -> None:
    start = wall("2026-03-02 00:00")
    work = [
        Stint(number, job, MONDAY, minutes, start + timedelta(minutes=at), start + timedelta(minutes=at + minutes))
        for number, (job, at, minutes) in enumerate(drawn)
    ]
    expected = {
        frozenset((one, other))
        for (one, (job, at, minutes)), (other, (job_too, at_too, minutes_too)) in combinations(enumerate(drawn), 2)
        if job != job_too and at < at_too + minutes_too and at_too < at + minutes
    }

    found = overlaps_of_jobs(work)

    assert {frozenset((one.id, other.id)) for one, other in found} == expected
    assert len(found) == len(expected)


def test_a_shift_that_nothing_tells_of_is_missing_in_full_and_a_short_one_in_part() -> None:
    shifts = [
        occurrence("2026-03-02 13:00", "2026-03-02 17:00", category_id=MUSEUM),
        occurrence("2026-03-03 13:00", "2026-03-03 17:00", category_id=MUSEUM),
        occurrence("2026-03-03 18:00", "2026-03-03 20:00", category_id=FAMILY),
        occurrence("2026-03-04 13:00", "2026-03-04 17:00", category_id=MUSEUM),
    ]
    told = [stint(MUSEUM, TUESDAY, 180)]

    missing = missing_hours(shifts, told, {WORKSHOP, MUSEUM}, wall("2026-03-04 12:00"))

    assert missing == (MissingHours(MONDAY, MUSEUM, 240), MissingHours(TUESDAY, MUSEUM, 60))


def test_a_noted_break_and_a_few_minutes_are_not_missing() -> None:
    shift = occurrence("2026-03-02 13:00", "2026-03-02 17:00", category_id=MUSEUM)
    told = Stint(1, MUSEUM, MONDAY, 190, break_minutes=25)

    assert missing_hours([shift], [told], {MUSEUM}, wall("2026-03-03 00:00")) == ()


def test_a_shift_is_not_told_of_by_longer_hours_at_another_time_of_its_day() -> None:
    visits = [
        occurrence("2026-03-02 07:30", "2026-03-02 09:00", category_id=MUSEUM),
        occurrence("2026-03-02 18:15", "2026-03-02 19:00", category_id=MUSEUM),
    ]
    longer = stint(MUSEUM, MONDAY, 240, "2026-03-02 07:30")

    assert missing_hours(visits, [longer], {MUSEUM}, wall("2026-03-03 00:00")) == (MissingHours(MONDAY, MUSEUM, 45),)
    assert missing_hours(visits, [longer, stint(MUSEUM, MONDAY, 45)], {MUSEUM}, wall("2026-03-03 00:00")) == ()


def test_hours_in_one_go_tell_of_every_shift_that_they_share_time_with() -> None:
    visits = [occurrence(f"2026-03-02 {hour:02}:00", f"2026-03-02 {hour:02}:45", category_id=MUSEUM) for hour in (7, 8, 9)]
    late = occurrence("2026-03-02 13:00", "2026-03-02 17:00", category_id=MUSEUM)
    told = [stint(MUSEUM, MONDAY, 165, "2026-03-02 07:00"), stint(MUSEUM, MONDAY, 240, "2026-03-02 14:00")]

    assert missing_hours([*visits, late], told, {MUSEUM}, wall("2026-03-03 00:00")) == ()


@given(st.lists(st.tuples(st.integers(0, 20), st.integers(1, 3), st.sampled_from([WORKSHOP, MUSEUM])), max_size=6))
def test_shifts_told_at_their_own_times_are_never_missing(made: list[tuple[int, int, int]]) -> None:
    shifts = [occurrence(f"2026-03-02 {hour:02}:00", f"2026-03-02 {hour + length:02}:00", category_id=job) for hour, length, job in made]
    told = [stint(job, MONDAY, length * 60, f"2026-03-02 {hour:02}:00") for hour, length, job in made]
    whole = sum(length * 60 for _, length, _ in made)

    assert missing_hours(shifts, told, {WORKSHOP, MUSEUM}, wall("2026-03-04 00:00")) == ()
    assert sum(each.minutes for each in missing_hours(shifts, (), {WORKSHOP, MUSEUM}, wall("2026-03-04 00:00"))) == whole
