"""Where a message is parted into several things, and where it is not."""

from __future__ import annotations

from datetime import date

import pytest

from bot.language.meaning import AddTask, Ask, Close, Log, Several, Unknown
from bot.language.understand import understand
from tests.language.person import at


@pytest.mark.parametrize(
    "text",
    [
        "task buy bread and milk",
        "task wash the cups, plates and spoons",
        "task drop the parcel, push the pram",
        "two hours and ten minutes workshop",
        "2h museum - stock count, labels and prices",
        "choir every tue and thu 19:30-21:00",
        "done 1, 3-5",
        "appt tomorrow 15:00 dentist, minor",
        "workshop 9-11:30, half an hour lunch",
    ],
)
def test_what_only_looks_like_two_things_stays_one(text: str) -> None:
    meaning = understand(text, at())
    assert not isinstance(meaning, Several | Unknown), meaning
    assert not isinstance(meaning, Log) or len(meaning.stints) == 1


def test_one_part_that_is_not_understood_makes_the_whole_message_unknown() -> None:
    assert isinstance(understand("3h workshop\nthe weather was fine", at()), Unknown)
    assert isinstance(understand("3h workshop; blue", at()), Unknown)
    assert isinstance(understand("3h workshop, blue", at()), Unknown)


def test_a_day_holds_to_the_end_of_its_line() -> None:
    meaning = understand("yesterday 1h workshop, 2h kids; 3h museum\n1h garden", at())
    assert isinstance(meaning, Log)
    assert [stint.day for stint in meaning.stints] == [date(2026, 3, 2)] * 3 + [date(2026, 3, 3)]


def test_another_day_takes_over_from_the_one_before() -> None:
    meaning = understand("mon 1h workshop, 2h kids, sunday 3h garden, 1h course", at())
    assert isinstance(meaning, Log)
    assert [stint.day.day for stint in meaning.stints] == [2, 2, 1, 1]


def test_hours_in_a_row_make_one_log_and_other_kinds_keep_their_order() -> None:
    meaning = understand("1h kids, 1h garden, done 2, 1h course", at())
    assert isinstance(meaning, Several)
    assert [type(part) for part in meaning.parts] == [Log, Close, Log]
    assert isinstance(meaning.parts[0], Log)
    assert len(meaning.parts[0].stints) == 2


def test_an_open_question_in_one_part_opens_the_whole() -> None:
    meaning = understand("1h work, 1h kids", at())
    assert isinstance(meaning, Ask)
    categories = [[stint.category for stint in choice.stints] for choice in meaning.choices if isinstance(choice, Log)]
    assert categories == [["workshop", "family"], ["museum", "family"]]


def test_lines_are_read_each_for_itself() -> None:
    meaning = understand("task one, two\n\ntask three", at())
    assert isinstance(meaning, Several)
    assert [part.title for part in meaning.parts if isinstance(part, AddTask)] == ["one, two", "three"]
