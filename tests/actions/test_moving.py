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


def test_a_day_that_holds_one_of_its_name_already_is_asked_about(stage: Stage) -> None:
    stage.say("guitar lesson thursday 16:00-18:30")
    asked = stage.say("guitar lesson thursday at 17:00")
    assert asked.lines == ["Thu 5 Mar has 16:00–18:30 guitar lesson already.", "Is that one to move, or is this another?"]
    assert asked.labels == ["Move it to 17:00–19:30", "Add another"]
    moved = stage.tap("Move it to 17:00–19:30")
    assert moved.text == "Moved from Thu 5 Mar, 16:00 to Thu 5 Mar, 17:00–19:30 guitar lesson."
    stage.say("guitar lesson thursday 9-10")
    assert stage.tap("Add another").text == "Added: Thu 5 Mar, 09:00–10:00 guitar lesson."
    assert stage.say("guitar lesson thursday 13-14").text.startswith("Added: ")


def test_what_comes_every_week_is_asked_about_for_the_day_that_holds_one(stage: Stage) -> None:
    stage.say("museum shift every weekday 13-17")
    asked = stage.say("thursdays museum is 14-16")
    assert asked.lines[0] == "Thu 5 Mar has 13:00–17:00 museum shift already."
    assert asked.labels == ["Move it to 14:00–16:00 on Thu 5 Mar only", "Add another"]


def test_two_times_of_one_message_and_what_is_called_an_appointment_are_others(stage: Stage) -> None:
    assert stage.say("guitar lesson thursday 9-10\nguitar lesson thursday 14-15").text.count("Added: ") == 2
    stage.say("dentist friday 9:00")
    assert stage.say("appt dentist friday 15:00").text.startswith("Added: ")


def test_the_word_shift_names_what_is_called_as_its_category(stage: Stage) -> None:
    stage.say("museum thursday 9-17 every thursday")
    moved = stage.say("museum shift thursday 9-13 instead")
    assert moved.text == "Moved from Thu 5 Mar, 09:00 to Thu 5 Mar, 09:00–13:00 museum."


def test_one_end_changes_and_the_other_stays(stage: Stage) -> None:
    stage.say("museum shift every thursday 13-17")
    assert stage.say("museum thursday from 14").text == "Moved from Thu 5 Mar, 13:00 to Thu 5 Mar, 14:00–17:00 museum shift, Museum."
    assert stage.say("museum thursday until 18").text == "Moved from Thu 5 Mar, 14:00 to Thu 5 Mar, 14:00–18:00 museum shift, Museum."
    assert stage.say("museum ends at 6:30 on thursday").text.endswith("14:00–18:30 museum shift, Museum.")
    assert stage.say("museum shift starts at 13:30 thursday").text.endswith("13:30–18:30 museum shift, Museum.")


def test_what_begins_so_much_later_or_earlier_keeps_its_length(stage: Stage) -> None:
    stage.say("museum shift every thursday 13-17")
    assert stage.say("museum 30 min later thursday").text.endswith("to Thu 5 Mar, 13:30–17:30 museum shift, Museum.")
    assert stage.say("museum thursday 1h earlier").text.endswith("to Thu 5 Mar, 12:30–16:30 museum shift, Museum.")
    assert stage.say("workshop 30 min later today").text == "I find no commitment “workshop” from today on."
