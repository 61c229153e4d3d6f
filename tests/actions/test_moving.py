"""What was called off and is moved after all: it comes back, and what takes place later stays where it is."""

from __future__ import annotations

import pytest

from tests.actions.test_calendars import SHIFT, calendar
from tests.stage import Stage


def with_a_class(stage: Stage) -> None:
    stage.say("pottery class every wed 17-18:30")
    stage.say("choir every thursday 19:30-21:00")


@pytest.mark.parametrize("called_off", ["cancel pottery class wed", "cancel pottery this week", "cancel wed"])
def test_what_was_called_off_this_week_is_brought_back_and_moved(stage: Stage, called_off: str) -> None:
    with_a_class(stage)
    stage.say(called_off)
    assert stage.say("move class to fri 17:00").text == "Moved from Wed 4 Mar, 17:00 to Fri 6 Mar, 17:00–18:30 pottery class."
    assert "Wed 11 Mar: evening 17:00–18:30 pottery class" in stage.say("next week").lines


def test_a_single_one_that_was_called_off_is_moved_too(stage: Stage) -> None:
    stage.say("appt dentist thu 15-16")
    stage.say("cancel dentist")
    assert stage.say("move dentist to fri").text == "Moved from Thu 5 Mar, 15:00 to Fri 6 Mar, 15:00–16:00 dentist."
    assert stage.say("undo").text.startswith("Taken back")
    assert "dentist" not in stage.say("week").text


def test_where_the_next_one_is_as_likely_it_is_asked_which(stage: Stage) -> None:
    stage.say("appt concert tonight 20-21")
    stage.say("appt concert sat 20-21")
    stage.say("cancel concert tonight")
    asked = stage.say("move concert to fri 20-20:30")
    assert asked.labels == ["Mon 2 Mar, 20:00 concert, called off", "Sat 7 Mar, 20:00 concert"]
    moved = stage.tap("Mon 2 Mar, 20:00 concert, called off")
    assert moved.text == "Moved from Mon 2 Mar, 20:00 to Fri 6 Mar, 20:00–20:30 concert."
    assert "Sat 7 Mar: evening 20:00–21:00 concert" in stage.say("week").lines


def test_one_of_a_day_that_is_over_is_asked_about(stage: Stage) -> None:
    with_a_class(stage)
    stage.say("cancel class wed")
    stage.jump("2026-03-05 09:00")
    asked = stage.say("move class to fri 17:00")
    assert asked.labels == ["Wed 4 Mar, 17:00 pottery class, called off", "Wed 11 Mar, 17:00 pottery class"]


def test_one_that_was_moved_is_not_called_off_and_moves_on(stage: Stage) -> None:
    with_a_class(stage)
    stage.say("move class to fri 17:00")
    assert stage.say("move class to sat 10:00").text.startswith("Moved from Fri 6 Mar, 17:00 to Sat 7 Mar, 10:00–11:30")
    stage.jump("2026-03-09 09:00")
    stage.say("cancel class this week")
    assert stage.say("move class to fri 17:00").text.startswith("Moved from Wed 11 Mar, 17:00 to Fri 13 Mar")


def test_the_day_from_which_it_moves_is_taken_at_its_word(stage: Stage) -> None:
    with_a_class(stage)
    stage.say("cancel class wed")
    assert stage.say("move class from wed to fri 17:00").text.startswith("Moved from Wed 4 Mar, 17:00 to Fri 6 Mar")
    stage.say("cancel choir thursday")
    assert stage.say("move choir from 12 march to 13 march").text.startswith("Moved from Thu 12 Mar, 19:30 to Fri 13 Mar")


def test_without_a_day_what_was_called_off_is_offered_new_days(stage: Stage) -> None:
    with_a_class(stage)
    stage.say("cancel class wed")
    assert stage.say("move class").lines[0] == "Wed 4 Mar, 17:00–18:30 pottery class. Move it to which day, at the same time?"
    assert stage.tap("Fri 6 Mar").text.startswith("Moved from Wed 4 Mar, 17:00 to Fri 6 Mar")


def test_a_series_that_ended_is_not_brought_back(stage: Stage) -> None:
    with_a_class(stage)
    stage.say("cancel class")
    stage.tap("Every time")
    assert stage.say("move class to fri 17:00").text == "I find no commitment “class” from today on."


def test_an_event_of_a_calendar_is_not_brought_back(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    stage.say("cancel museum shift")
    stage.tap("It was called off")
    assert stage.say("move museum shift to fri 14:00").text == "I find no commitment “museum shift” from today on."


def test_all_day_the_day_alone_says_from_where(stage: Stage) -> None:
    stage.say("appt thu birthday")
    assert stage.say("move birthday to fri").text == "Moved from Thu 5 Mar to Fri 6 Mar, all day birthday."
