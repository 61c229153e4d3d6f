"""A day and a time together: the phrases in ``moment_phrases`` and what is more than a phrase."""

from __future__ import annotations

from datetime import date, datetime, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.moments import Moment, read_moment
from bot.language.tokens import tokenize
from tests.language.moment_phrases import FAMILIES, NO_MOMENT
from tests.language.person import at
from tests.language.phrases import rows


def told(moment: Moment) -> str:
    times = [each.isoformat("minutes") for each in (moment.start, moment.end) if each]
    minutes = [] if moment.minutes is None else [str(moment.minutes)]
    return " ".join([moment.day.isoformat() if moment.day else "-", *times, *minutes])


def heard(text: str, now: str = "2026-03-03T12:00") -> Moment:
    found = read_moment(tokenize(text), 0, at(now), "forward")
    assert found is not None
    return found.value


@pytest.mark.parametrize(("phrase", "wanted"), rows(FAMILIES))
def test_moments(phrase: str, wanted: str) -> None:
    tokens = tokenize(f"{phrase} dentist")
    found = read_moment(tokens, 0, at(), "forward")
    assert found is not None
    assert (told(found.value), found.end) == (wanted, len(tokens) - 1)


@pytest.mark.parametrize("phrase", NO_MOMENT)
def test_what_is_no_moment_wherever_one_starts_to_read(phrase: str) -> None:
    tokens = tokenize(f"{phrase} dentist")
    assert [read_moment(tokens, place, at(), "forward") for place in range(len(tokens))] == [None] * len(tokens)


def test_a_time_that_has_passed_is_tomorrows_and_says_that_no_day_was_said() -> None:
    passed, said = heard("9am"), heard("tomorrow 9am")
    assert (passed.day, passed.day_said) == (date(2026, 3, 4), False)
    assert (said.day, said.day_said) == (date(2026, 3, 4), True)


def test_a_time_that_is_as_likely_comes_as_another_choice() -> None:
    moment = heard("friday at 7")
    assert [one.start for one in (moment, *moment.others)] == [time(7), time(19)]
    assert {one.day for one in (moment, *moment.others)} == {date(2026, 3, 6)}


def test_the_moment_as_far_from_now_goes_along_with_a_distance_of_whole_days() -> None:
    distances = {
        phrase: heard(phrase).distance for phrase in ("in 3 days", "next month", "last year", "friday", "next friday", "next week")
    }
    local = {phrase: there and there.replace(tzinfo=None) for phrase, there in distances.items()}
    assert local == {
        "in 3 days": datetime(2026, 3, 6, 12),
        "next month": datetime(2026, 4, 3, 12),
        "last year": datetime(2025, 3, 3, 12),
        "friday": None,
        "next friday": None,
        "next week": None,
    }


@pytest.mark.parametrize(
    ("phrase", "day", "start", "end"),
    [
        ("from 4 pm on the 5th to 6pm", date(2026, 3, 5), time(16), time(18)),
        ("9am tomorrow until 5pm tomorrow", date(2026, 3, 4), time(9), time(17)),
        ("thursday 9am - thursday 11am", date(2026, 3, 5), time(9), time(11)),
        ("between 9am and 11am on thursday", date(2026, 3, 5), time(9), time(11)),
        ("for half an hour from 4", None, time(16), time(16, 30)),
        ("at 3pm for 2 hours", None, time(15), time(17)),
        ("3ish", None, time(15), None),
        ("tomorrow lunchtime", date(2026, 3, 4), time(12), None),
        ("later today at 5", date(2026, 3, 3), time(17), None),
        ("early tomorrow morning", date(2026, 3, 4), time(6), None),
    ],
)
def test_ends_behind_days_and_other_ways_to_say_when(phrase: str, day: date | None, start: time, end: time | None) -> None:
    moment = heard(phrase)
    assert (moment.day, moment.start, moment.end) == (day, start, end)


def test_a_length_alone_lies_before_the_moment_or_begins_now() -> None:
    moment = heard("for an hour")
    assert (moment.start, moment.others[0].start, moment.others[0].end) == (time(13), time(12), time(13))


def test_a_number_behind_a_weekday_is_an_hour_or_the_day_that_it_agrees_with() -> None:
    hour, *dates = (heard("thursday 12"), *heard("thursday 12").others)
    assert (hour.day, hour.start) == (date(2026, 3, 5), time(12))
    assert [(each.day, each.start) for each in dates] == [(date(2026, 3, 12), None)]


def test_looking_back_a_part_of_the_day_says_nothing_of_the_hours() -> None:
    found = read_moment(tokenize("yesterday afternoon"), 0, at(), "back")
    assert found is not None
    assert (found.value.day, found.value.start, found.end) == (date(2026, 3, 2), None, 2)


words = st.sampled_from([*FAMILIES.replace("=>", " ").split(), "less", "30m", "@", "(", ")"])


@given(st.text() | st.lists(words).map(" ".join))
def test_no_text_raises_and_reading_twice_gives_the_same(text: str) -> None:
    tokens = tokenize(text)
    for place in range(len(tokens)):
        found = read_moment(tokens, place, at(), "forward")
        assert found is None or place < found.end <= len(tokens)
        assert found == read_moment(tokens, place, at(), "forward")
