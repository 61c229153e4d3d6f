"""A break that is told behind the hours comes off them, by day and after midnight."""

from __future__ import annotations

import pytest

from tests.actions.noted import noted
from tests.stage import Stage


@pytest.mark.parametrize("said", ["20 min break", "less 20 min", "i had a 20 min break"])
def test_it_comes_off_the_hours_of_today(stage: Stage, said: str) -> None:
    stage.jump("2026-03-06 14:00")
    stage.say("museum 9-13")
    assert stage.say(said).lines[0] == "Museum, Fri 6 Mar, 09:00–13:00, less 20 min: 3 h 40"


@pytest.mark.parametrize("said", ["20 min break", "less 20 min", "i had a 20 min break"])
def test_it_comes_off_hours_that_ended_after_midnight(stage: Stage, said: str) -> None:
    stage.jump("2026-03-07 01:36")
    stage.say("museum 18-1:30")
    assert stage.say(said).lines[0] == "Museum, Fri 6 Mar, 18:00–01:30, less 20 min: 7 h 10"
    assert noted(stage) == [430]


def test_it_comes_off_those_of_a_clock_that_ran_over_midnight(stage: Stage) -> None:
    stage.jump("2026-03-06 18:00")
    stage.say("in museum")
    stage.jump("2026-03-07 01:30")
    stage.say("out")
    assert stage.say("20 min break").lines[0] == "Museum, Fri 6 Mar, 18:00–01:30, less 20 min: 7 h 10"


def test_hours_of_yesterday_that_ended_then_are_not_told_of_by_a_break_alone(stage: Stage) -> None:
    stage.jump("2026-03-07 00:10")
    stage.say("museum 18-22:30 yesterday")
    assert stage.say("20 min break").lines[0] == "I did not understand that, so nothing is recorded."
    assert noted(stage) == [270]


def test_an_end_alone_begins_no_hours_where_those_of_the_night_ended(stage: Stage) -> None:
    stage.jump("2026-03-07 01:36")
    stage.say("museum 18-1:30")
    stage.jump("2026-03-07 17:05")
    assert stage.say("workshop until 17").lines[0] == "I did not understand that, so nothing is recorded."
