"""A meaning written out is understood as that meaning. No source: it is our own promise."""

from __future__ import annotations

from dataclasses import replace
from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.meaning import Ask, Meaning, Unknown
from bot.language.understand import understand
from bot.voice.written import labelled, written
from storage.records import ClockStyle
from tests.language import meanings
from tests.language.person import at
from tests.language.table import rows

NOON = at()


@given(meanings.meanings, st.sampled_from(ClockStyle))
def test_whatever_is_written_is_understood_as_what_was_meant(meaning: Meaning, style: ClockStyle) -> None:
    assert understand(written(meaning, NOON, style), NOON) == meaning


@pytest.mark.parametrize("style", ClockStyle)
def test_every_reply_of_the_tables_can_be_written_back(style: ClockStyle) -> None:
    for table in ("hours.txt", "pushing.txt", "adding.txt", "commitments.txt", "settings.txt", "showing.txt", "calendars.txt", "jobs.txt"):
        for row in rows(table):
            meaning = understand(row.reply, NOON)
            if not isinstance(meaning, Ask | Unknown):
                assert understand(written(meaning, NOON, style), NOON) == meaning, row.place


@pytest.mark.parametrize(
    ("said", "label"),
    [
        ("museum 13-17 less 30m", "1-5pm museum less 30m"),
        ("appt dentist fri 9:30-13:00", "appt dentist fri 9:30am-1pm"),
        ("workshop 8-12", "8am-noon workshop"),
        ("in museum 10:05", "in museum at 10:05am"),
        ("waking 7-22", "waking 7am-10pm"),
        ("evening 20:30", "evening at 8:30pm"),
        ("2h learning", "2h learning"),
    ],
)
def test_a_choice_is_labelled_by_the_12_hour_clock_to_who_lives_by_it(said: str, label: str) -> None:
    assert labelled(understand(said, NOON), NOON, ClockStyle.TWELVE) == label


def test_a_button_for_hours_of_an_earlier_day_says_its_date() -> None:
    late = replace(NOON, waking_end=time(23))
    meaning = understand("sun 7:30-9 museum", late)
    assert isinstance(meaning, Ask)
    assert [labelled(choice, late) for choice in meaning.choices] == ["sun 1 mar 07:30-09:00 museum", "sun 1 mar 19:30-21 museum"]
    assert [labelled(choice, late, ClockStyle.TWELVE) for choice in meaning.choices] == [
        "sun 1 mar 7:30-9am museum",
        "sun 1 mar 7:30-9pm museum",
    ]
