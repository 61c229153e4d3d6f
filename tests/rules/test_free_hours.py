from __future__ import annotations

from dataclasses import replace
from datetime import date, time

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.free_hours import free_minutes, free_spans, minutes_to_fill
from bot.rules.spans import Span
from tests.rules.made import MONDAY, PERSON, occurrence, wall


def test_free_hours_are_the_waking_window_less_what_is_fixed() -> None:
    busy = [occurrence("2026-03-02 09:00", "2026-03-02 12:30"), occurrence("2026-03-02 13:00", "2026-03-02 22:00")]

    spans = free_spans(PERSON, MONDAY, busy)

    assert spans == (
        Span(wall("2026-03-02 06:00"), wall("2026-03-02 09:00")),
        Span(wall("2026-03-02 12:30"), wall("2026-03-02 13:00")),
    )
    assert free_minutes(spans) == 210


def test_free_hours_from_now_on_leave_out_what_has_passed() -> None:
    assert free_minutes(free_spans(PERSON, MONDAY, [], since=wall("2026-03-02 20:15"))) == 45
    assert free_minutes(free_spans(PERSON, MONDAY, [], since=wall("2026-03-02 23:00"))) == 0
    assert free_minutes(free_spans(PERSON, MONDAY, [], since=wall("2026-03-02 01:00"))) == 15 * 60


def test_a_waking_window_across_a_clock_change_is_an_hour_shorter() -> None:
    # Source: tz database, rule EU: 29 March 2026 has 23 hours in Brussels.
    owl = replace(PERSON, waking_start=time(0), waking_end=time(12))

    assert free_minutes(free_spans(owl, date(2026, 3, 29), [])) == 11 * 60


def test_by_default_a_fifth_of_the_free_hours_stays_free() -> None:
    # Source: common practice, no source.
    assert minutes_to_fill(300, PERSON.free_share) == 240
    assert minutes_to_fill(0, PERSON.free_share) == 0


@given(st.integers(0, 2000), st.integers(0, 100))
def test_what_may_be_filled_and_what_stays_free_make_up_the_whole(free: int, share: int) -> None:
    fill = minutes_to_fill(free, share)

    assert 0 <= fill <= free
    assert (free - fill) * 100 >= free * share > (free - fill - 1) * 100 - 100
