"""What makes a commitment without the word for it, and what its title is."""

from __future__ import annotations

from datetime import date, time

import pytest

from bot.language.meaning import AddCommitment, Ask, Log
from bot.language.understand import understand
from tests.language.person import at

TOMORROW = date(2026, 3, 4)


@pytest.mark.parametrize(
    "text",
    [
        "dentist 15:00",
        "dentist tomorrow",
        "dentist yesterday 15:00",
        "see you tomorrow 15:00",
        "is it tomorrow 15:00",
        "back tomorrow at 5",
        "tomorrow 15:00",
        "12 tomorrow 15:00",
        "push tomorrow 15:00",
        "a very long story about what we may do together tomorrow 15:00",
    ],
)
def test_without_its_word_a_commitment_needs_a_title_a_day_ahead_and_a_time(text: str) -> None:
    assert not isinstance(understand(text, at()), AddCommitment)


def test_a_time_that_has_passed_today_is_tomorrow() -> None:
    assert understand("appt 9:00 dentist", at()) == AddCommitment("dentist", TOMORROW, time(9))
    assert understand("appt 15:00 dentist", at()) == AddCommitment("dentist", date(2026, 3, 3), time(15))


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("appt with the dentist tomorrow 15:00", "dentist"),
        ("meeting with Ann tomorrow 15:00", "meeting with Ann"),
        ("meeting tomorrow 15:00 museum", "museum"),
        ("class tomorrow 15:00", "class"),
        ('appt "with the dentist" tomorrow 15:00', "with the dentist"),
        ("appt tomorrow 15:00: Bo's party", "Bo's party"),
    ],
)
def test_the_title_is_what_is_left(text: str, title: str) -> None:
    meaning = understand(text, at())
    assert isinstance(meaning, AddCommitment)
    assert (meaning.title, meaning.day, meaning.start) == (title, TOMORROW, time(15))


def test_a_length_behind_the_time_gives_the_end() -> None:
    assert understand("appt tomorrow 15:00 45m dentist", at()) == AddCommitment("dentist", TOMORROW, time(15), time(15, 45))


def test_an_hour_that_may_be_either_half_of_the_day_is_asked_about() -> None:
    meaning = understand("appt thursday at 7 choir", at())
    assert isinstance(meaning, Ask)
    assert [choice.start for choice in meaning.choices if isinstance(choice, AddCommitment)] == [time(7), time(19)]


def test_a_shift_of_a_weekday_may_have_been_or_be_to_come() -> None:
    meaning = understand("museum shift saturday 9-17", at())
    assert isinstance(meaning, Ask)
    assert [type(choice) for choice in meaning.choices] == [AddCommitment, Log]


@pytest.mark.parametrize("shift", ["museum shift", "learning session", "workshop shift"])
@pytest.mark.parametrize(
    ("weekday", "kinds"),
    [
        ("friday", [AddCommitment]),
        ("sat", [AddCommitment]),
        ("on sunday", [AddCommitment]),
        ("mon", [AddCommitment, Log]),
        ("tue", [AddCommitment, Log]),
        ("wed", [AddCommitment, Log]),
        ("thu", [AddCommitment, Log]),
        ("yesterday", [Log]),
        ("last sat", [Log]),
        ("tomorrow", [AddCommitment]),
        ("28 feb", [Log]),
        ("7 march", [AddCommitment]),
    ],
)
def test_on_a_thursday_a_shift_of_a_weekday_that_comes_sooner_than_it_was_is_to_come(shift: str, weekday: str, kinds: list[type]) -> None:
    meaning = understand(f"{shift} {weekday} 13-17", at("2026-03-05T10:00"))
    assert [type(choice) for choice in (meaning.choices if isinstance(meaning, Ask) else (meaning,))] == kinds


@pytest.mark.parametrize("text", ["worked museum shift sat 13-17", "i did a museum shift sat 13-17", "museum shift sat 13-17 less 30m"])
def test_a_shift_told_as_spent_or_with_a_break_was(text: str) -> None:
    assert isinstance(understand(text, at("2026-03-05T10:00")), Log)


@pytest.mark.parametrize("text", ["appt dentist", "appt tomorrow 15:00", "appt dentist tomorrow friday", "appt dentist 2h"])
def test_without_a_time_or_a_title_or_with_two_days_it_is_none(text: str) -> None:
    assert not isinstance(understand(text, at()), AddCommitment)
