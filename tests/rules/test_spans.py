from __future__ import annotations

from datetime import time, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.local_time import elapsed_minutes
from bot.rules.spans import Span, merged, overlap, shared, waking_span, without
from tests.rules.made import BRUSSELS, MONDAY, wall

MIDNIGHT = wall("2026-03-02 00:00")


def span(first: int, last: int) -> Span:
    """From one minute of the day to another."""
    return Span(MIDNIGHT + timedelta(minutes=first), MIDNIGHT + timedelta(minutes=last))


MINUTES = st.integers(0, 200)
SPANS = st.builds(lambda one, other: span(min(one, other), max(one, other)), MINUTES, MINUTES)


def minutes_of(spans: list[Span] | tuple[Span, ...]) -> set[int]:
    """Each minute that the spans hold: the plain way to say what they are."""
    bounds = ((elapsed_minutes(MIDNIGHT, each.starts), elapsed_minutes(MIDNIGHT, each.ends)) for each in spans)
    return {minute for first, last in bounds for minute in range(first, last)}


@given(st.lists(SPANS))
def test_merged_spans_hold_the_same_minutes_each_once(spans: list[Span]) -> None:
    joined = merged(spans)

    assert minutes_of(joined) == minutes_of(spans)
    assert sum(each.minutes for each in joined) == len(minutes_of(spans))
    assert all(one.ends < other.starts for one, other in pairwise(joined))


@given(SPANS, st.lists(SPANS))
def test_what_is_left_is_what_was_not_taken(whole: Span, taken: list[Span]) -> None:
    left = without(whole, taken)

    assert minutes_of(left) == minutes_of([whole]) - minutes_of(taken)
    assert all(each.minutes > 0 for each in left)


@given(SPANS, SPANS)
def test_two_spans_overlap_when_they_share_a_minute(one: Span, other: Span) -> None:
    common = shared(one, other)

    assert overlap(one, other) == bool(minutes_of([one]) & minutes_of([other]))
    assert minutes_of([common] if common else []) == minutes_of([one]) & minutes_of([other])


def test_a_waking_window_may_end_after_midnight() -> None:
    assert waking_span(MONDAY, time(6), time(21), BRUSSELS) == Span(wall("2026-03-02 06:00"), wall("2026-03-02 21:00"))
    assert waking_span(MONDAY, time(10), time(1), BRUSSELS) == Span(wall("2026-03-02 10:00"), wall("2026-03-03 01:00"))
