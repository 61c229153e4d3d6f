from __future__ import annotations

from dataclasses import replace
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.unlogged import unlogged
from storage.records import Block, Occurrence
from tests.rules.made import MONDAY, occurrence, stint, wall

WORKSHOP, MUSEUM = 1, 2
EVENING = wall("2026-03-02 20:00")
MORNING_SHIFT = occurrence("2026-03-02 09:00", "2026-03-02 12:00", id=1, category_id=WORKSHOP)
AFTERNOON_SHIFT = occurrence("2026-03-02 13:00", "2026-03-02 17:00", id=2, category_id=WORKSHOP)
BOTH = (MORNING_SHIFT, AFTERNOON_SHIFT)


def test_planned_hours_without_any_stint_are_unlogged() -> None:
    assert unlogged(reversed(BOTH), [], EVENING) == BOTH


def test_a_stint_with_times_tells_of_what_it_shares_time_with() -> None:
    late_start = stint(WORKSHOP, MONDAY, 60, "2026-03-02 11:30")
    between = stint(WORKSHOP, MONDAY, 60, "2026-03-02 12:00")

    assert unlogged(BOTH, [late_start], EVENING) == (AFTERNOON_SHIFT,)
    assert unlogged(BOTH, [between], EVENING) == BOTH


def test_hours_of_another_category_or_day_tell_nothing() -> None:
    elsewhere = [stint(MUSEUM, MONDAY, 180), stint(WORKSHOP, date(2026, 3, 1), 180), stint(MUSEUM, MONDAY, 60, "2026-03-02 10:00")]

    assert unlogged([MORNING_SHIFT], elsewhere, EVENING) == (MORNING_SHIFT,)


def test_minutes_without_times_count_against_what_was_planned_in_its_order() -> None:
    # Source: common practice, no source.
    assert unlogged(BOTH, [stint(WORKSHOP, MONDAY, 180)], EVENING) == (AFTERNOON_SHIFT,)
    assert unlogged(BOTH, [stint(WORKSHOP, MONDAY, 60)], EVENING) == (AFTERNOON_SHIFT,)
    assert unlogged(BOTH, [stint(WORKSHOP, MONDAY, 195)], EVENING) == (AFTERNOON_SHIFT,)
    assert unlogged(BOTH, [stint(WORKSHOP, MONDAY, 180), stint(WORKSHOP, MONDAY, 210)], EVENING) == ()


def test_minutes_without_times_go_to_what_no_stint_with_times_tells_of() -> None:
    timed, untimed = stint(WORKSHOP, MONDAY, 180, "2026-03-02 09:00"), stint(WORKSHOP, MONDAY, 30)

    assert unlogged(BOTH, [timed, untimed], EVENING) == ()


def test_what_is_not_over_yet_or_has_no_category_is_not_missing() -> None:
    dentist = occurrence("2026-03-02 09:00", "2026-03-02 10:00")

    assert unlogged([dentist, *BOTH], [], wall("2026-03-02 13:00")) == (MORNING_SHIFT,)


def test_hours_noted_with_a_title_tell_of_what_is_called_so_and_of_nothing_else() -> None:
    exercise = Block(0, MONDAY, wall("2026-03-02 13:00"), wall("2026-03-02 13:30"), "Exercise", WORKSHOP, routine_id=1)
    both: list[Occurrence | Block] = [MORNING_SHIFT, exercise]
    noted = replace(stint(WORKSHOP, MONDAY, 30), note="exercise")

    assert unlogged(both, [noted], EVENING) == (MORNING_SHIFT,)
    assert unlogged(both, [replace(noted, note="else")], EVENING) == (exercise,)


def test_hours_for_a_task_without_times_tell_of_what_was_planned_for_it_and_of_nothing_else() -> None:
    chains = Block(0, MONDAY, wall("2026-03-02 13:00"), wall("2026-03-02 15:00"), "oil the chains", WORKSHOP, task_id=7)
    both: list[Occurrence | Block] = [MORNING_SHIFT, chains]
    spent = replace(stint(WORKSHOP, MONDAY, 30), task_ids=(7,))

    assert unlogged(both, [spent], EVENING) == (MORNING_SHIFT,)
    assert unlogged(both, [replace(spent, task_ids=(8,))], EVENING) == (chains,)
    assert unlogged(both, [spent, stint(WORKSHOP, MONDAY, 30)], EVENING) == ()


SHIFTS = st.lists(st.tuples(st.integers(0, 20), st.integers(1, 3), st.sampled_from([WORKSHOP, MUSEUM])), max_size=8)


@given(SHIFTS)
def test_logging_all_of_a_day_as_planned_leaves_nothing_unlogged(made: list[tuple[int, int, int]]) -> None:
    planned = [_shift(number, *each) for number, each in enumerate(made)]
    as_planned = [stint(category, MONDAY, hours * 60, f"2026-03-02 {hour:02}:00") for hour, hours, category in made]
    without_times = [stint(category, MONDAY, hours * 60) for _, hours, category in made]
    midnight = wall("2026-03-03 00:00")

    assert unlogged(planned, as_planned, midnight) == ()
    assert unlogged(planned, without_times, midnight) == ()
    assert len(unlogged(planned, [], midnight)) == len(planned)


def _shift(id: int, hour: int, hours: int, category_id: int) -> Occurrence:
    return occurrence(f"2026-03-02 {hour:02}:00", f"2026-03-02 {hour + hours:02}:00", id=id, category_id=category_id)
