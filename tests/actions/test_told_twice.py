"""Hours told again are not doubled, and a correction reaches the hours that it names and no others."""

from __future__ import annotations

import pytest

from tests.actions.noted import noted
from tests.stage import Stage


@pytest.fixture
def evening(stage: Stage) -> Stage:
    """Monday at six, after a shift with times and two hours without."""
    stage.at("2026-03-02 18:00")
    stage.say("museum 13-17")
    stage.say("workshop 2h")
    return stage


@pytest.mark.parametrize("said", ["no, museum 5h", "no, museum was 5h", "actually museum was 5h", "i meant 5h museum", "no, 5h museum"])
def test_a_correction_that_names_another_category_reaches_its_hours_of_that_day(evening: Stage, said: str) -> None:
    assert evening.say(said).lines[0] == "Museum, Mon 2 Mar: 5 h"
    assert noted(evening) == [300, 120]


def test_the_very_length_of_the_latest_hours_says_that_these_were_meant_for_the_other(evening: Stage) -> None:
    evening.say("no, 2h museum")
    assert evening.say("hours today").lines[1:2] == ["Museum: 6 h"]


def test_a_category_without_hours_that_day_takes_the_latest(evening: Stage) -> None:
    evening.say("no, 3h learning")
    assert noted(evening) == [240, 180]


def test_a_correction_behind_what_was_not_understood_touches_nothing_noted_before(evening: Stage) -> None:
    evening.say("4h gardening")
    assert evening.say("no, 1h").labels == ["correct workshop today 1h", "correct museum today 1h"]
    assert noted(evening) == [240, 120]
    evening.say("4h gardening")
    evening.say("no, 1h learning")
    assert noted(evening) == [240, 120, 60]


def test_a_length_that_is_what_the_day_holds_already_is_asked_about(evening: Stage) -> None:
    asked = evening.say("museum 4h")
    assert asked.text == "Museum on Mon 2 Mar has hours already: 13:00–17:00: 4 h. Nothing is logged yet."
    assert noted(evening) == [240, 120]
    evening.tap("Log it as well")
    assert noted(evening) == [240, 120, 240]


def test_of_a_day_that_is_over_any_such_length_is_and_of_today_only_one_beside_times(evening: Stage) -> None:
    evening.say("workshop 2h")
    evening.say("yesterday 1h workshop")
    assert evening.say("yesterday 1h workshop").labels == ["Log it as well", "Replace"]
    evening.say("yesterday 1h workshop - oiled chains")
    assert noted(evening) == [240, 120, 120, 60, 60]


def test_of_paid_work_with_times_on_a_day_that_is_over_any_length_is_asked_about_and_may_replace_it(evening: Stage) -> None:
    evening.at("2026-03-03 09:00")
    assert evening.say("yesterday museum 3h").labels == ["Log it as well", "Replace"]
    evening.tap("Replace")
    assert noted(evening) == [120, 180]
    evening.say("undo")
    assert sorted(noted(evening)) == [120, 240]
