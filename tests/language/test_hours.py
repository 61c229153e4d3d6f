"""Hours from one time to another, said on Tuesday at noon by a person who is awake from six to nine in the evening.

No source: common practice.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.breaks import read_break
from bot.language.hours import Hours, less, read_hours
from bot.language.times_of_day import Look
from bot.language.tokens import tokenize
from tests.language.person import at
from tests.language.phrases import rows

FIGURES = """
9-12 => 09:00 12:00 180
9 - 12 => 09:00 12:00 180
9-12:30 => 09:00 12:30 210
9.30-11.45 => 09:30 11:45 135
0900-1130 => 09:00 11:30 150
9h-11h30 => 09:00 11:30 150
8h to 13h => 08:00 13:00 300
9:00–12:00 => 09:00 12:00 180
9am-noon => 09:00 12:00 180
8:30a-10:30a => 08:30 10:30 120
3-4pm => 15:00 16:00 60
3:30-6 p.m. => 15:30 18:00 150
10:00:00-11:45:00 => 10:00 11:45 105
"""
WORDS = """
9 to 5 => 09:00 17:00 480
nine to five => 09:00 17:00 480
from 9 to noon => 09:00 12:00 180
from 1 to 5 => 13:00 17:00 240
between 8 and 11:15 => 08:00 11:15 195
9am till 11 => 09:00 11:00 120
from 9 until 10.30 => 09:00 10:30 90
8am through 1pm => 08:00 13:00 300
from half past 9 to quarter to 11 => 09:30 10:45 75
from about 9 to around 11 => 09:00 11:00 120
5 to seven in the morning => 05:00 07:00 120
9 est to 11 est => 09:00 11:00 120
"""
LASTING = """
from 9 for 2.5 hours => 09:00 11:30 150
9am for 30 mins => 09:00 09:30 30
for 2 hours from 9 => 09:00 11:00 120
for 30' starting from 9 => 09:00 09:30 30
2h from 9 => 09:00 11:00 120
9 for an hour and a half => 09:00 10:30 90
"""
ONE_END = """
since 9 => 09:00 12:00 180
since 10:30 => 10:30 12:00 90
until 3 => - 15:00 -
till 5pm => - 17:00 -
until noon => - 12:00 -
"""
OVER_MIDNIGHT = """
22-6 => 22:00 06:00 480
22:00-06:00 => 22:00 06:00 480
2200-0600 => 22:00 06:00 480
10pm-1am => 22:00 01:00 180
from 11 pm to 3 => 23:00 03:00 240
11 to 3am => 23:00 03:00 240
10pm to midnight => 22:00 00:00 120
"""
ENDS_SETTLE_EACH_OTHER = """
9-5 => 09:00 17:00 480
11-1 => 11:00 13:00 120
11:30-1:30 => 11:30 13:30 120
12-1 => 12:00 13:00 60
9-9 => 09:00 21:00 720
from 11 to 3pm => 11:00 15:00 240
from 11 am to 3 => 11:00 15:00 240
8am until 6 => 08:00 18:00 600
7-3 => 07:00 15:00 480
from 2:30 to 2:15 pm => 02:30 14:15 705
from 11:01 am to 11 => 11:01 23:00 719
10 - 11 at night => 22:00 23:00 60
0930-0730 => 09:30 19:30 600
"""
LESS_A_BREAK = """
9-5 less 30m => 09:00 17:00 450 30
9-5 minus 45 min lunch => 09:00 17:00 435 45
9-5 with half an hour off => 09:00 17:00 450 30
9 to 5, half an hour lunch => 09:00 17:00 450 30
9-17 (30m break) => 09:00 17:00 450 30
9-17, 45 min for lunch => 09:00 17:00 435 45
9-5 less a 30 min break => 09:00 17:00 450 30
9-5 with an hour for lunch => 09:00 17:00 420 60
9-5 minus lunch 30m => 09:00 17:00 450 30
9-12 less a quarter of an hour => 09:00 12:00 165 15
9-10 less 2h => 09:00 10:00 0 120
9-5 lunch 30m => 09:00 17:00 450 30
"""
FAMILIES = FIGURES + WORDS + LASTING + ONE_END + OVER_MIDNIGHT + ENDS_SETTLE_EACH_OTHER + LESS_A_BREAK
NO_HOURS = [
    "",
    "9",
    "9-",
    "3-7-07",
    "650-650-6500",
    "2026-03-02",
    "9 and 12",
    "from 9",
    "A4 A5",
    "for 2h",
    "9-25",
    "between 9",
]


def told(hours: Hours) -> str:
    ends = [end.isoformat("minutes") if end else "-" for end in (hours.start, hours.end)]
    pause = [str(hours.break_minutes)] if hours.break_minutes else []
    return " ".join([*ends, "-" if hours.minutes is None else str(hours.minutes), *pause])


def heard(text: str, look: Look = "back", now: str = "2026-03-03T12:00", *, today: bool = True) -> Hours:
    found = read_hours(tokenize(text), 0, at(now), look, today=today)
    assert found is not None
    return found.value


@pytest.mark.parametrize(("text", "wanted"), rows(FAMILIES))
def test_hours(text: str, wanted: str) -> None:
    tokens = tokenize(f"{text} workshop")
    found = read_hours(tokens, 0, at(), "back")
    assert found is not None
    assert (told(found.value), found.end) == (wanted, len(tokens) - 1)


@pytest.mark.parametrize("text", NO_HOURS)
def test_what_is_no_hours(text: str) -> None:
    assert read_hours(tokenize(text), 0, at(), "back") is None


def test_on_another_day_two_readings_may_be_as_likely() -> None:
    hours = heard("7-8", today=False)
    assert [told(one) for one in (hours, *hours.others)] == ["07:00 08:00 60", "19:00 20:00 60"]


def test_looking_back_hours_that_have_been_are_meant() -> None:
    assert told(heard("7-8", "back")) == "07:00 08:00 60"
    assert told(heard("5-7", "back")) == "05:00 07:00 120"


@pytest.mark.parametrize(
    ("now", "wanted"),
    [("08:50", "05:00 09:00"), ("12:00", "05:00 09:00"), ("18:00", "05:00 09:00"), ("20:50", "17:00 21:00"), ("21:30", "17:00 21:00")],
)
def test_looking_back_an_early_start_is_likelier_than_an_evening_that_is_not_over(now: str, wanted: str) -> None:
    found = read_hours(tokenize("5-9"), 0, replace(at(f"2026-03-03T{now}"), waking_start=time(5, 30)), "back")
    assert found is not None
    assert told(found.value) == f"{wanted} 240"


def test_looking_back_an_afternoon_that_is_not_over_is_likelier_than_the_night() -> None:
    assert told(heard("2-6", now="2026-03-03T16:00")) == "14:00 18:00 240"


def test_looking_forward_hours_that_are_to_come_are_meant() -> None:
    assert told(heard("7-8", "forward")) == "19:00 20:00 60"


def test_a_break_is_taken_off_the_other_reading_too() -> None:
    hours = heard("7-8:30 less 10m", today=False)
    assert [one.minutes for one in (hours, *hours.others)] == [80, 80]


def test_a_break_may_be_taken_off_later() -> None:
    assert less(heard("9-5"), 30) == heard("9-5 less 30m")


@pytest.mark.parametrize("text", ["less", "with the kids", "lunch", "30m", "with 30 others", "and 30m", ", , , 30m break", "minus"])
def test_what_is_no_break(text: str) -> None:
    assert read_break(tokenize(text), 0) is None


clocks = st.builds(time, st.integers(0, 23), st.integers(0, 59))


@given(clocks, clocks, st.integers(0, 59))
def test_minutes_are_the_end_less_the_start_around_midnight_less_the_break(start: time, end: time, pause: int) -> None:
    hours = heard(f"{start:%H:%M}-{end:%H:%M} less {pause}m")
    assert hours.start is not None
    assert hours.end is not None
    gross = (hours.end.hour * 60 + hours.end.minute - hours.start.hour * 60 - hours.start.minute) % 1440
    assert hours.minutes == max(0, gross - pause)
    assert (hours.start.minute, hours.end.minute) == (start.minute, end.minute)


@given(clocks, st.integers(1, 1439))
def test_an_end_by_its_length_is_that_much_later(start: time, minutes: int) -> None:
    hours = heard(f"from {start:%H:%M} for {minutes} min")
    assert hours.start is not None
    assert hours.end is not None
    assert (hours.end.hour * 60 + hours.end.minute - hours.start.hour * 60 - hours.start.minute) % 1440 == minutes == hours.minutes


@given(st.text())
def test_no_text_raises_and_reading_twice_gives_the_same(text: str) -> None:
    tokens = tokenize(text)
    for place in range(len(tokens)):
        found = read_hours(tokens, place, at(), "back")
        assert found is None or place < found.end <= len(tokens)
        assert found == read_hours(tokens, place, at(), "back")
