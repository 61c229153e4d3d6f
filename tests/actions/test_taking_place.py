"""What was called off and takes place after all."""

from __future__ import annotations

import pytest

from tests.actions.test_calendars import SHIFT, calendar
from tests.stage import Stage


@pytest.mark.parametrize("said", ["uncancel dentist", "reinstate the dentist", "dentist is on after all", "dentist thursday is back on"])
def test_a_commitment_that_was_called_off_takes_place(stage: Stage, said: str) -> None:
    stage.say("dentist thu 16-17")
    stage.say("cancel dentist")
    assert stage.say(said).lines == ["On again: Thu 5 Mar, 16:00–17:00 dentist."]
    assert "16:00–17:00 dentist" in stage.say("thursday").text
    stage.say("undo")
    assert "dentist" not in stage.say("thursday").text


def test_one_time_of_a_series_takes_place_and_the_others_stay_as_they_are(stage: Stage) -> None:
    stage.say("choir every tue 18:30-20:30")
    for day in ("tue 10 mar", "tue 17 mar", "tue 24 mar"):
        stage.say(f"cancel choir {day}")
    assert stage.say("uncancel choir 24 mar").lines == ["On again: Tue 24 Mar, 18:30–20:30 choir."]
    asked = stage.say("choir is on again")
    assert (asked.text, asked.labels) == ("Which do you mean?", ["Tue 10 Mar", "Tue 17 Mar"])
    assert stage.tap("Tue 17 Mar").lines == ["On again: Tue 17 Mar, 18:30–20:30 choir."]
    assert "choir" not in stage.say("10 march").text
    assert "choir" in stage.say("17 march").text


def test_a_series_that_was_called_off_comes_again_every_time(stage: Stage) -> None:
    stage.say("choir every tue 18:30-20:30")
    stage.say("cancel choir")
    stage.tap("Every time")
    assert stage.say("uncancel choir").lines == ["On again: Tue 3 Mar, 18:30–20:30 choir, every Tuesday."]


def test_an_event_of_a_calendar_takes_place_again_with_the_calendars_own_words(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    stage.say("cancel museum shift")
    stage.tap("It was called off")
    assert stage.say("uncancel museum shift").lines[0] == "On again: Thu 5 Mar, 13:00–17:00 Museum shift."
    assert "Museum shift" in stage.say("thursday").text


def test_what_was_not_called_off_or_is_not_there_is_told_so(stage: Stage) -> None:
    stage.say("dentist thu 16-17")
    assert stage.say("uncancel dentist").text == "That was not called off: dentist, Thu 5 Mar."
    assert stage.say("uncancel plumber").text == "I find nothing “plumber” from today on that was called off."
