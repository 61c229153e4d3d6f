"""Times of day, said to a person who is awake from six to nine in the evening. No source: common practice.

Tuesday noon; the time said is the latest one that has been, as when someone
clocks in, unless the test says otherwise.
"""

from __future__ import annotations

from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.clock import read_clock
from bot.language.tokens import tokenize
from tests.language.person import at
from tests.language.phrases import rows

FIGURES = """
9 => 09:00
9:30 => 09:30
9.30 => 09:30
9h => 09:00
9h30 => 09:30
0930 => 09:30
930 => 09:30
09:30 => 09:30
21:15 => 21:15
1630 => 16:30
16h => 16:00
9:30:15 => 09:30
0900 hours => 09:00
24:00 => 00:00
0:15 => 00:15
"""
WITH_A_HALF = """
9am => 09:00
9 am => 09:00
9a => 09:00
9 a.m. => 09:00
9 a m => 09:00
3pm => 15:00
3:30pm => 15:30
3.30 pm => 15:30
330 p.m. => 15:30
3 30 pm => 15:30
12am => 00:00
12pm => 12:00
12:30 am => 00:30
20pm => 20:00
8:45a => 08:45
"""
WITH_A_PART = """
3 in the afternoon => 15:00
8 in the evening => 20:00
8 in the morning => 08:00
11 at night => 23:00
1 at night => 01:00
12 at night => 00:00
3:15 in the afternoon => 15:15
3 in the pm => 15:00
seven thirty in the evening => 19:30
"""
WORDS = """
nine => 09:00
nine thirty => 09:30
nine oh five => 09:05
eleven forty-five => 11:45
nine o'clock => 09:00
seven thirty p.m. => 19:30
noon => 12:00
midday => 12:00
midnight => 00:00
12 noon => 12:00
12 midnight => 00:00
"""
RELATIVE = """
half past nine => 09:30
half nine => 09:30
half 9 => 09:30
quarter past nine => 09:15
a quarter past 9 => 09:15
quarter to nine => 08:45
a quarter to noon => 11:45
20 past 9 => 09:20
twenty past nine => 09:20
twenty to nine => 08:40
25 to 9 => 08:35
10 minutes to nine => 08:50
five past nine => 09:05
20 minutes past 3pm => 15:20
twenty after 3pm => 15:20
15 minutes from 1pm => 13:15
an hour before noon => 11:00
two hours after 3pm => 17:00
quarter to midnight => 23:45
"""
WITH_SMALL_WORDS = """
9am sharp => 09:00
9ish => 09:00
9-ish => 09:00
9am pst => 09:00
9:00 (cet) => 09:00
11:50:48 -0500 => 11:50
"""
FAMILIES = FIGURES + WITH_A_HALF + WITH_A_PART + WORDS + RELATIVE + WITH_SMALL_WORDS
NO_TIME = [
    "",
    "25",
    "9:75",
    "25:00",
    "12:5",
    "2500",
    "2460",
    "am",
    "single o'clock",
    "half",
    "quarter",
    "past nine",
    "sixty a m",
    "12345",
    "0pm",
]
BY_THE_WAKING_WINDOW = """
1 => 13:00
5 => 17:00
6 => 06:00
9 => 09:00
12 => 12:00
12:30 => 12:30
"""


@pytest.mark.parametrize(("text", "wanted"), rows(FAMILIES))
def test_times(text: str, wanted: str) -> None:
    tokens = tokenize(f"{text} workshop")
    found = read_clock(tokens, 0, at())
    assert found is not None
    assert (found.value.isoformat("minutes"), found.end) == (wanted, len(tokens) - 1)


@pytest.mark.parametrize("text", NO_TIME)
def test_what_is_no_time(text: str) -> None:
    found = read_clock(tokenize(text), 0, at())
    assert found is None or found.end < len(tokenize(text))


@pytest.mark.parametrize(("text", "wanted"), rows(BY_THE_WAKING_WINDOW))
def test_an_open_hour_is_one_that_the_person_is_awake_in(text: str, wanted: str) -> None:
    found = read_clock(tokenize(text), 0, at(), None)
    assert found is not None
    assert found.value == time.fromisoformat(wanted)


def test_an_open_hour_looks_to_the_side_of_now_that_is_meant() -> None:
    back, ahead = read_clock(tokenize("7"), 0, at(), "back"), read_clock(tokenize("7"), 0, at(), "forward")
    assert back is not None
    assert ahead is not None
    assert (back.value, ahead.value) == (time(7), time(19))


def test_before_to_a_number_is_a_stretch_of_hours_unless_it_is_sure() -> None:
    tokens = tokenize("at ten to four")
    stretch, said_at = read_clock(tokenize("ten to four"), 0, at()), read_clock(tokens, 1, at(), None)
    assert stretch is not None
    assert said_at is not None
    assert (stretch.end, said_at.value, said_at.end) == (1, time(15, 50), 4)


@given(st.integers(0, 23), st.integers(0, 59), st.sampled_from(["{h}:{m:02}", "{h:02}:{m:02}", "{h:02}{m:02}", "{h}.{m:02}"]))
def test_the_24_hour_clock_is_read_as_it_is_written(hour: int, minute: int, form: str) -> None:
    found = read_clock(tokenize(form.format(h=hour, m=minute)), 0, at(), None)
    assert found is not None
    assert found.value.minute == minute
    assert found.value.hour in (hour, (hour + 12) % 24)
    assert found.value.hour == hour or 1 <= hour <= 12


@given(st.text())
def test_no_text_raises(text: str) -> None:
    tokens = tokenize(text)
    for place in range(len(tokens)):
        found = read_clock(tokens, place, at())
        assert found is None or place < found.end <= len(tokens)
