"""What an unknown reply is answered with."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.meaning import Unknown
from bot.language.understand import understand
from tests.language.person import at, clocked_in


def _near(text: str) -> tuple[str, ...]:
    meaning = understand(text, at())
    assert isinstance(meaning, Unknown), meaning
    return meaning.near


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("psuh 2", "push 2"),
        ("doen 1", "done 1"),
        ("the workshop took 2h", "2h workshop"),
        ("museum stock count 9-12", "9-12 museum - stock count"),
        ("udno", "undo"),
        ("overtme workshop off", "overtime workshop off"),
        ("setings", "settings"),
        ("tsak call Ann", "task call Ann"),
        ("cancle dentist", "cancel dentist"),
        ("udo", "undo"),
        ("came home at 6", "out 6"),
        ("workshop now", "in workshop"),
        ("museum from 1", "in museum 1"),
        ("yesterday museum 3", "yesterday 3h museum"),
        ("2 fri", "push 2 to fri"),
        ("spokes to friday", "push spokes to friday"),
        ("spokes on friday", "push spokes to friday"),
        ("done 1 in 20", "done 1 in 20m"),
        ("gym 1h", "task gym 1h"),
        ("2h pottery", "category pottery, 2h pottery"),
        ("yesterday 9-11 pottery", "category pottery, yesterday 9-11 pottery"),
        ("5 minutes late", "task late 5 minutes"),
        ("timesheet gallery", "timesheet workshop"),
        ("rate gallery 12", "rate workshop 12"),
        ("i get 25 an hour for museum", "rate museum 25 an hour"),
        ("max 20h museum", "target museum max 20h"),
        ("pick up kids 15:30", "appt 15:30 pick up kids"),
        ("museum 28 euros an hour", "rate museum 28 euros an hour"),
        ("call pharmacy tomorrow", "task call pharmacy tomorrow"),
        ("choir is minor", "mark choir minor"),
        ("stop museum calendar", "pause calendar museum"),
        ("my calendar is wrong", "calendars"),
        ("please read https://museum.example/shifts.ics for the museum", "calendar museum https://museum.example/shifts.ics"),
    ],
)
def test_the_nearest_reply_comes_first(text: str, first: str) -> None:
    assert _near(text)[0] == first


def test_an_order_that_failed_is_offered_as_no_appointment() -> None:
    assert _near("target gardening 12-25h") == ()


@given(st.text(max_size=60))
def test_there_are_at_most_three_and_every_one_of_them_is_understood(text: str) -> None:
    meaning = understand(text, clocked_in())
    if isinstance(meaning, Unknown):
        assert len(meaning.near) <= 3
        assert not any(isinstance(understand(reply, clocked_in()), Unknown) for reply in meaning.near)


@pytest.mark.parametrize("text", ["the weather was lovely and we laughed a lot", "thanks", "ok", "hello", "buy milk", "gute nacht"])
def test_small_talk_is_offered_nothing(text: str) -> None:
    assert _near(text) == ()


@given(st.text(alphabet="0123456789: abcdehmnoprtuy", max_size=40))
def test_no_number_is_offered_that_was_not_said(text: str) -> None:
    meaning = understand(text, at())
    if isinstance(meaning, Unknown):
        said = set(re.findall(r"\d+", text))
        assert all(set(re.findall(r"\d+", reply)) <= said for reply in meaning.near)


@pytest.mark.parametrize("text", ["12 km museum", "museum 12 km", "3 pages museum", "museum 5 visits", "€12 museum", "museum 12 %"])
def test_a_number_that_counts_something_else_is_offered_as_no_hours(text: str) -> None:
    assert not any(re.search(r"\d+ ?h", reply) for reply in _near(text))
