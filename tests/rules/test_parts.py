from __future__ import annotations

from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.parts import Part, part_of, part_of_occurrence, parts_touched
from tests.rules.made import BRUSSELS, occurrence


# Source: common practice, no source.
@pytest.mark.parametrize(
    ("at", "part"),
    [
        (time(0, 0), Part.MORNING),
        (time(11, 59), Part.MORNING),
        (time(12, 0), Part.AFTERNOON),
        (time(16, 59), Part.AFTERNOON),
        (time(17, 0), Part.EVENING),
        (time(23, 59), Part.EVENING),
    ],
)
def test_a_time_belongs_to_its_part_of_day(at: time, part: Part) -> None:
    assert part_of(at) is part


@given(st.times(), st.times())
def test_parts_follow_each_other_as_times_do(one: time, other: time) -> None:
    order = list(Part)

    assert (one <= other) <= (order.index(part_of(one)) <= order.index(part_of(other)))


def test_an_occurrence_belongs_to_the_part_it_starts_in_on_the_clocks_of_the_zone() -> None:
    talk = occurrence("2026-03-02 16:30", "2026-03-02 18:00")

    assert part_of_occurrence(talk, BRUSSELS) is Part.AFTERNOON
    assert part_of_occurrence(talk, "America/New_York") is Part.MORNING


def test_an_occurrence_touches_every_part_it_takes_time_of() -> None:
    assert parts_touched(occurrence("2026-03-02 16:30", "2026-03-02 18:00"), BRUSSELS) == {Part.AFTERNOON, Part.EVENING}
    assert parts_touched(occurrence("2026-03-02 09:00", "2026-03-02 12:00"), BRUSSELS) == {Part.MORNING}
    assert parts_touched(occurrence("2026-03-02 09:00", "2026-03-02 18:00"), BRUSSELS) == set(Part)
    assert parts_touched(occurrence("2026-03-02 12:00", "2026-03-02 12:00"), BRUSSELS) == {Part.AFTERNOON}


def test_one_that_runs_over_midnight_touches_the_rest_of_its_own_day() -> None:
    assert parts_touched(occurrence("2026-03-02 13:00", "2026-03-03 02:00"), BRUSSELS) == {Part.AFTERNOON, Part.EVENING}
