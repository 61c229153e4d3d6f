"""Times of day by either clock: written in one way, and read back as the same time."""

from __future__ import annotations

from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.clock import read_spoken, readings
from bot.language.tokens import tokenize
from bot.language.unsettled_hours import read_unsettled_hours
from bot.voice.times_of_day import brief_span, brief_time, span_text, time_text, typed
from storage.records import ClockStyle

TWELVE, TWENTY_FOUR = ClockStyle.TWELVE, ClockStyle.TWENTY_FOUR
TIMES = st.builds(time, st.integers(0, 23), st.integers(0, 59)) | st.builds(time, st.integers(0, 23))
STYLES = st.sampled_from(ClockStyle)


# Source: ISO 8601-1, 5.3.1, for the 24-hour clock; NIST for noon and midnight; for the rest common practice, no source.
@pytest.mark.parametrize(
    ("at", "by_24", "by_12", "brief"),
    [
        (time(9), "09:00", "9:00 am", "9 am"),
        (time(13), "13:00", "1:00 pm", "1 pm"),
        (time(10, 10), "10:10", "10:10 am", "10:10 am"),
        (time(0), "00:00", "midnight", "midnight"),
        (time(12), "12:00", "noon", "noon"),
        (time(0, 30), "00:30", "12:30 am", "12:30 am"),
        (time(12, 5), "12:05", "12:05 pm", "12:05 pm"),
        (time(23, 59), "23:59", "11:59 pm", "11:59 pm"),
    ],
)
def test_a_time_by_either_clock(at: time, by_24: str, by_12: str, brief: str) -> None:
    assert (time_text(at, TWENTY_FOUR), time_text(at, TWELVE), brief_time(at, TWELVE)) == (by_24, by_12, brief)
    assert brief_time(at, TWENTY_FOUR) == by_24


@pytest.mark.parametrize(
    ("starts", "ends", "said", "brief"),
    [
        (time(13), time(17), "1:00–5:00 pm", "1–5 pm"),
        (time(9), time(13), "9:00 am–1:00 pm", "9 am–1 pm"),
        (time(9, 30), time(11), "9:30–11:00 am", "9:30–11 am"),
        (time(9), time(12), "9:00 am–noon", "9 am–noon"),
        (time(12), time(17), "noon–5:00 pm", "noon–5 pm"),
        (time(12, 30), time(13), "12:30–1:00 pm", "12:30–1 pm"),
        (time(22), time(0), "10:00 pm–midnight", "10 pm–midnight"),
        (time(22), time(6), "10:00 pm–6:00 am", "10 pm–6 am"),
        (time(23), time(13), "11:00 pm–1:00 pm", "11 pm–1 pm"),
        (time(9), time(9), "9:00 am–9:00 am", "9 am–9 am"),
    ],
)
def test_am_or_pm_is_said_once_where_that_is_clear(starts: time, ends: time, said: str, brief: str) -> None:
    assert (span_text(starts, ends, TWELVE), brief_span(starts, ends, TWELVE)) == (said, brief)
    assert brief_span(starts, ends, TWENTY_FOUR) == span_text(starts, ends, TWENTY_FOUR) == f"{starts:%H:%M}–{ends:%H:%M}"


def test_seconds_are_not_said() -> None:
    assert [time_text(time(12, 0, 30), style) for style in (TWELVE, TWENTY_FOUR)] == ["noon", "12:00"]
    assert span_text(time(12, 0, 30), time(13, 0, 59), TWELVE) == "noon–1:00 pm"


@given(TIMES)
def test_a_time_with_am_or_pm_can_be_read_as_no_other(at: time) -> None:
    for text in (time_text(at, TWELVE), brief_time(at, TWELVE), typed(brief_time(at, TWELVE))):
        found = read_spoken(tokenize(text), 0)
        assert found is not None
        assert found.end == len(tokenize(text))
        assert readings(found.value) == (at.hour * 60 + at.minute,)


@given(TIMES, TIMES)
def test_a_span_has_the_start_and_the_end_that_were_meant(starts: time, ends: time) -> None:
    for text in (span_text(starts, ends, TWELVE), typed(brief_span(starts, ends, TWELVE))):
        tokens = tokenize(text.replace("–", "-"))
        found = read_unsettled_hours(tokens, 0)
        assert found is not None
        assert found.end == len(tokens)
        assert found.value.start is not None
        assert found.value.end is not None
        assert starts.hour * 60 + starts.minute in readings(found.value.start)
        assert readings(found.value.end) == (ends.hour * 60 + ends.minute,)


@given(TIMES, TIMES, TIMES, TIMES, STYLES)
def test_different_times_are_written_differently(a: time, b: time, c: time, d: time, style: ClockStyle) -> None:
    assert (time_text(a, style) == time_text(b, style)) == (a == b)
    assert (span_text(a, b, style) == span_text(c, d, style)) == ((a, b) == (c, d))
