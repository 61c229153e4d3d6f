"""Corrections that are none, and what they leave alone."""

from __future__ import annotations

from datetime import date, time

import pytest

from bot.language.meaning import Amend, Ask, Cancel, Drop, Move, Undo, Unknown
from bot.language.understand import understand
from tests.language.person import at


def test_a_correction_changes_only_what_it_says() -> None:
    assert understand("no, 3h", at()) == Amend(minutes=180)
    assert understand("make it museum yesterday", at()) == Amend(day=date(2026, 3, 2), category="museum")
    assert understand("no, 9-12 less 15m", at()) == Amend(start=time(9), end=time(12), break_minutes=15)
    assert understand("not 3h but 2h", at()) == Amend(minutes=120)


def test_a_correction_to_a_section_asks_which_of_its_categories() -> None:
    meaning = understand("make it work", at())
    assert meaning == Ask((Amend(category="workshop"), Amend(category="museum")))


@pytest.mark.parametrize(
    "text", ["no", "no way", "no museum today", "not 3h", "it was a long day", "make it quick", "actually fine", "no, 3h 2h"]
)
def test_a_denial_that_says_nothing_else_corrects_nothing(text: str) -> None:
    assert isinstance(understand(text, at()), Unknown)


def test_numbers_behind_cancel_are_tasks_and_words_a_commitment() -> None:
    assert isinstance(understand("cancel 1, 2", at()), Drop)
    assert understand("cancel choir thursday", at()) == Cancel("choir", date(2026, 3, 5))


@pytest.mark.parametrize("text", ["move it", "move dentist to", "move to friday", "cancel", "cancel it", "cancel 1 or so"])
def test_half_a_change_is_none(text: str) -> None:
    assert not isinstance(understand(text, at()), Move | Cancel | Drop)


def test_undo_and_redo_stand_alone() -> None:
    assert understand("undo", at()) == Undo()
    assert understand("redo", at()) == understand("undo the undo", at()) == Undo(again=True)
    assert isinstance(understand("undo the mess in the shed", at()), Unknown)


def test_what_moves_from_or_is_cancelled_on_the_weekday_of_today_is_todays() -> None:
    assert understand("move choir tue to thu 8-12", at()) == Move("choir", date(2026, 3, 5), time(8), time(12), from_day=date(2026, 3, 3))
    assert understand("cancel choir tuesday", at()) == Cancel("choir", date(2026, 3, 3))
    assert understand("cancel choir next tuesday", at()) == Cancel("choir", date(2026, 3, 10))


def test_a_time_of_the_afternoon_corrects_the_end() -> None:
    assert understand("no 16:45", at()) == Amend(end=time(16, 45), either=True)


@pytest.mark.parametrize(
    ("text", "words", "day"),
    [
        ("visit cancelled", "visit", None),
        ("visit tomorrow cancelled", "visit", date(2026, 3, 4)),
        ("visit cancelled tomorrow", "visit", date(2026, 3, 4)),
        ("school tour thursday canceled", "school tour", date(2026, 3, 5)),
    ],
)
def test_what_others_called_off_may_be_told_with_the_word_behind(text: str, words: str, day: date | None) -> None:
    assert understand(text, at()) == Cancel(words, day)


def test_talk_of_what_was_cancelled_cancels_nothing() -> None:
    for text in ("the train was cancelled again", "they cancelled my order", "my flight home with Ann got cancelled"):
        assert isinstance(understand(text, at()), Unknown)
