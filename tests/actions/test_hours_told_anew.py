"""Hours told once more, with a break or with a length that sets them right, are never noted twice."""

from __future__ import annotations

import pytest

from tests.actions.noted import noted
from tests.stage import Stage

REPLACED = "This replaces what was logged before."


@pytest.fixture
def evening(stage: Stage) -> Stage:
    """Monday at six, after a shift of four hours."""
    stage.at("2026-03-02 18:00")
    stage.say("museum 9-13 - counted postcards")
    return stage


def test_a_break_that_was_forgotten_is_told_with_the_hours_once_more(evening: Stage) -> None:
    answer = evening.say("museum 9-13 with 15 min break")
    assert answer.lines[0].startswith("Museum, Mon 2 Mar, 09:00–13:00, less 15 min: 3 h 45")
    assert "counted postcards" in answer.text
    assert REPLACED in answer.lines
    assert noted(evening) == [225]
    evening.say("undo")
    assert noted(evening) == [240]


def test_the_same_hours_with_the_same_break_or_with_none_are_asked_about(evening: Stage) -> None:
    evening.say("museum 9-13 less 15m")
    for said in ("museum 9-13 less 15m", "museum 9-13"):
        assert evening.say(said).labels == ["Keep both", "Replace", "Only the rest"]
        assert noted(evening) == [225]


def test_hours_of_another_category_with_a_break_are_asked_about(evening: Stage) -> None:
    assert evening.say("workshop 9-13 less 15m").labels == ["Keep both", "Replace", "Only the rest"]
    assert noted(evening) == [240]


@pytest.mark.parametrize("said", ["no, 3h30", "no, 3:30"])
def test_a_length_behind_the_question_is_that_of_the_hours_in_the_way(evening: Stage, said: str) -> None:
    evening.say("museum 9-13:15")
    answer = evening.say(said)
    assert REPLACED in answer.lines
    assert "counted postcards" in answer.text
    assert noted(evening) == [210]
    evening.say("undo")
    assert noted(evening) == [240]


def test_of_several_in_the_way_it_is_asked_which_has_that_length(evening: Stage) -> None:
    evening.say("museum 14-15")
    evening.say("museum 9-15")
    asked = evening.say("no, 5h30")
    assert asked.lines[-1] == "Which of them is 5 h 30?"
    assert asked.labels[-1] == "5 h 30 in all"
    evening.tap("5 h 30 in all")
    assert noted(evening) == [330]


def test_a_length_of_hours_in_the_way_of_another_category_is_noted_beside_them(evening: Stage) -> None:
    evening.say("workshop 12-14")
    assert evening.say("no, 1h").lines[0] == "Workshop, Mon 2 Mar: 1 h"
    assert noted(evening) == [240, 60]


def test_a_length_of_another_category_is_noted_beside_them_too(evening: Stage) -> None:
    evening.say("museum 9-13:15")
    assert evening.say("no, 3h workshop").lines[0] == "Workshop, Mon 2 Mar: 3 h"
    assert noted(evening) == [240, 180]
