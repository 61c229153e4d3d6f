"""Settings that are none, and the forms of their values."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bot.language.context import Named
from bot.language.meaning import Log, Set, Unknown
from bot.language.understand import understand
from tests.language.person import at


@pytest.mark.parametrize(
    "text",
    [
        "morning at half",
        "morning at 25:00",
        "evening soon",
        "waking 7",
        "waking early",
        "week starts soon",
        "dates blue",
        "clock blue",
        "clock 13 hours",
        "24h",
        "place",
        "place 12 apples",
        "i live in a house with 3 cats",
        "free share 95%",
        "free share some",
        "quiet until blue",
        "category",
        "zone",
    ],
)
def test_a_value_that_is_none_changes_nothing(text: str) -> None:
    assert isinstance(understand(text, at()), Unknown)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("evening at 8", "20:00"),
        ("evening at 8am", "08:00"),
        ("morning at 6", "06:00"),
        ("morning at 6pm", "18:00"),
        ("recap at noon", "12:00"),
    ],
)
def test_an_open_time_is_in_the_morning_for_the_morning_message_and_late_for_the_others(text: str, value: str) -> None:
    meaning = understand(text, at())
    assert isinstance(meaning, Set)
    assert meaning.value == value


@pytest.mark.parametrize(
    ("text", "value"), [("waking 7-11", "07:00-23:00"), ("waking 6:30 to 9:30", "06:30-21:30"), ("waking 5am-10pm", "05:00-22:00")]
)
def test_a_short_waking_window_ends_in_the_evening(text: str, value: str) -> None:
    assert understand(text, at()) == Set("waking", value)


def test_a_clock_that_hours_go_to_is_no_setting() -> None:
    repairs = replace(at(), categories=(*at().categories, Named("clock", (), "work")))
    for text in ("12h clock", "12 hour clock"):
        meaning = understand(text, repairs)
        assert isinstance(meaning, Log)
        assert meaning.stints[0].minutes == 12 * 60
    assert understand("use am and pm", repairs) == Set("clock", "12-hour")


def test_a_new_category_goes_to_the_section_that_is_named_or_to_the_first() -> None:
    assert understand("category choir in work", at()) == Set("category", "choir; work")
    assert understand("category choir", replace(at(), sections=("club", "work"))) == Set("category", "choir; club")
    assert understand("new category board games called chess, cards", at()) == Set("category", "board games; personal; chess, cards")
