"""A correction right behind a question about hours sets right the hours that were asked about, and no others."""

from __future__ import annotations

import pytest

from tests.actions.noted import noted
from tests.stage import Stage


@pytest.fixture
def noon(stage: Stage) -> Stage:
    """Half past noon on Wednesday, with hours of the morning noted."""
    stage.at("2026-03-04 12:30")
    stage.say("museum 9-11")
    return stage


def test_hours_still_under_way_are_set_right_and_asked_about_or_noted(noon: Stage) -> None:
    assert noon.say("museum 12-14").lines == ["Today, 12:00–14:00 is still under way. Nothing is logged yet."]
    assert noon.say("no until 1").text == "Today, 12:00–13:00 is still under way. Nothing is logged yet."
    assert noted(noon) == [120]
    assert noon.say("no, until 12:30").lines[0] == "Museum, Wed 4 Mar, 12:00–12:30: 30 min"
    assert noted(noon) == [120, 30]


def test_what_is_planned_or_spent_is_asked_anew_with_the_corrected_times(stage: Stage) -> None:
    stage.say("museum yesterday 9-11")
    assert stage.say("museum shift mon 13-17").labels == ["Planned: Mon 9 Mar, 13:00–17:00", "Spent: today, 13:00–17:00"]
    asked = stage.say("no until 4")
    assert (asked.text, asked.labels) == (
        "Is that planned, or spent already?",
        ["Planned: Mon 9 Mar, 13:00–16:00", "Spent: today, 13:00–16:00"],
    )
    assert stage.tap("Planned: Mon 9 Mar, 13:00–16:00").lines[0] == "Added: Mon 9 Mar, 13:00–16:00 museum shift, Museum."


def test_a_length_tells_that_it_is_spent(noon: Stage) -> None:
    noon.say("museum shift mon 13-17")
    assert noon.say("no, 3h").lines[0] == "Museum, Mon 2 Mar: 3 h"


def test_hours_of_a_category_that_is_not_known_yet_are_asked_about_anew(noon: Stage) -> None:
    noon.say("work 8-9")
    asked = noon.say("no until 8:30")
    assert asked.labels == ["8-8:30 workshop", "8-8:30 museum"]
    assert noon.say("no, workshop").lines[0] == "Workshop, Wed 4 Mar, 08:00–08:30: 30 min"


def test_of_hours_in_the_way_the_new_ones_are_set_right(noon: Stage) -> None:
    assert noon.say("workshop 10-12").labels == ["Keep both", "Replace", "Only the rest"]
    assert noon.say("no from 11").lines[0] == "Workshop, Wed 4 Mar, 11:00–12:00: 1 h"
    assert noted(noon) == [120, 60]


def test_a_clock_that_ran_too_long_is_set_right_and_stopped(stage: Stage) -> None:
    stage.say("in workshop 8:00")
    stage.at("2026-03-03 12:30")
    assert "Nothing is logged yet." in stage.say("out").text
    assert stage.say("no until 17:00").lines[0] == "Workshop, Mon 2 Mar, 08:00–17:00: 9 h"
    assert stage.say("out").text == "No clock is running."


def test_a_question_about_something_else_or_of_long_ago_leaves_the_latest_hours_meant(noon: Stage) -> None:
    noon.say("routine exercise 40m every day")
    noon.say("exercise")
    assert noon.say("no until 10:30").lines[0] == "Museum, Wed 4 Mar, 09:00–10:30: 1 h 30"
    noon.say("museum 12-14")
    noon.jump("2026-03-05 09:00")
    assert noon.say("no until 10").labels == ["correct museum yesterday until 10:00"]


def test_hours_that_are_named_are_meant_whatever_was_asked(noon: Stage) -> None:
    noon.say("workshop 12-14")
    assert noon.say("correct museum 9-10").lines[0] == "Museum, Wed 4 Mar, 09:00–10:00: 1 h"


@pytest.fixture
def clashing(noon: Stage) -> Stage:
    """Hours corrected so that they overlap others."""
    noon.say("workshop 11-12")
    asked = noon.say("no from 10")
    assert asked.text == "That overlaps hours already there: Museum, Wed 4 Mar, 09:00–11:00: 2 h. What was logged stays as it is."
    return noon


@pytest.mark.parametrize(("label", "minutes"), [("Keep both", [120, 120]), ("Replace", [120]), ("Only the rest", [120, 60])])
def test_corrected_hours_that_clash_take_the_place_of_those_they_correct(clashing: Stage, label: str, minutes: list[int]) -> None:
    assert "This replaces what was logged before." in clashing.tap(label).lines
    assert noted(clashing) == minutes
    clashing.say("undo")
    assert sorted(noted(clashing)) == [60, 120]


def test_a_second_correction_of_hours_that_clash_corrects_the_same(clashing: Stage) -> None:
    assert clashing.say("no from 11:30").lines[0] == "Workshop, Wed 4 Mar, 11:30–12:00: 30 min"
    assert noted(clashing) == [120, 30]
