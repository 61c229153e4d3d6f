"""Routines and targets: kept, listed by number, changed, ended, and all of it taken back."""

from __future__ import annotations

from datetime import date

import pytest

from tests.stage import Stage

EXERCISE = "1 exercise, 30 min, every day, between 07:00 and 09:00"


def test_routines_and_targets_are_listed_with_how_to_end_them(stage: Stage) -> None:
    assert stage.say("routines").text.startswith("No routines and no targets yet.")
    stage.say("routine exercise 30m every day 7-9")
    stage.say("routine cleaning 1h every saturday home")
    stage.say("target learning at least 4h")
    assert stage.say("routines").lines == [
        "Routines",
        EXERCISE,
        "2 cleaning, 1 h, every Saturday, Home",
        "Hours wanted a week",
        "Learning: at least 4 h",
        "To end one, write: drop routine exercise or no target learning",
    ]


def test_a_routine_of_the_same_name_is_changed(stage: Stage) -> None:
    stage.say("routine exercise 30m every day 7-9")
    assert stage.say("routine exercise 45m every day 18-20").text == (
        "Routine changed: exercise, 45 min, every day, between 18:00 and 20:00."
    )
    assert sum("exercise" in line for line in stage.say("routines").lines[:-1]) == 1
    stage.say("undo")
    assert EXERCISE in stage.say("routines").lines


def test_a_routine_ends_with_its_hours_in_the_plan_and_comes_back_with_them(stage: Stage) -> None:
    stage.say("routine exercise 30m every day 7-9")
    stage.at("2026-03-03 06:00")
    stage.tap("Accept the plan")
    assert stage.say("drop routine 1").text == "No longer a routine: exercise."
    assert "exercise" not in stage.say("plan").text
    stage.say("undo")
    stage.say("undo")
    assert EXERCISE in stage.say("routines").lines
    assert stage.look(lambda desk: [block.title for block in desk.blocks.all()]) == ["exercise"]


def test_a_routine_that_is_not_there_is_refused_with_those_that_are(stage: Stage) -> None:
    stage.say("routine exercise 30m every day 7-9")
    assert stage.say("drop routine 7").lines == ["I find no routine “7”.", "I know exercise."]
    assert stage.say("drop routine painting").lines[0] == "I find no routine “painting”."


def test_a_target_ends_and_comes_back_with_undo(stage: Stage) -> None:
    stage.say("target learning at least 4h")
    assert stage.say("no target learning").text == "Learning: no hours wanted a week any more, from today on."
    assert stage.look(lambda desk: desk.targets.in_force(desk.person.joined.date())) == ()
    stage.tap("Undo")
    assert "Learning: at least 4 h" in stage.say("routines").lines


def test_weeks_before_keep_the_target_they_had(stage: Stage) -> None:
    stage.say("target learning at least 4h")
    stage.jump("2026-03-10 09:00")
    stage.say("no target learning")
    assert stage.look(lambda desk: len(desk.targets.in_force(date(2026, 3, 2)))) == 1
    assert stage.look(lambda desk: len(desk.targets.in_force(date(2026, 3, 9)))) == 0
    assert stage.say("no target learning").text == "No hours a week are wanted for learning, so nothing changed."
    stage.say("target learning at least 2h")
    assert "Learning: at least 2 h" in stage.say("routines").lines


@pytest.mark.parametrize(
    ("now", "since"), [("2026-03-05 12:00", "2026-03-02"), ("2026-03-06 12:00", "2026-03-09"), ("2026-03-08 12:00", "2026-03-09")]
)
def test_hours_wanted_late_in_a_week_are_wanted_from_the_next(stage: Stage, now: str, since: str) -> None:
    stage.jump(now)
    stage.say("target learning at least 4h")
    assert stage.look(lambda desk: [str(each.since) for each in desk.targets.all()]) == [since]


def test_a_week_that_was_nearly_over_when_hours_were_wanted_says_nothing_of_them(stage: Stage) -> None:
    stage.jump("2026-03-08 15:00")
    assert stage.say("target learning at least 4h").lines[0] == "Learning: at least 4 h a week, from tomorrow on."
    stage.say("2h learning")
    assert "wanted" not in next(parcel.text for parcel in stage.at("2026-03-08 18:00").parcels if "Your week" in parcel.text)
    assert "Learning: at least 4 h" in stage.say("routines").text


def test_hours_wanted_from_the_next_week_on_can_be_dropped_before_it_begins(stage: Stage) -> None:
    stage.say("target learning at least 3h")
    stage.jump("2026-03-07 15:00")
    stage.say("target learning at least 4h")
    stage.say("no target learning")
    stage.jump("2026-03-10 15:00")
    assert "target" not in stage.say("routines").text.lower() or "no targets" in stage.say("routines").text
