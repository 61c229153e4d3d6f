"""The way to commitments and back: said, shown, and left free by the plan of a day and of a week."""

from __future__ import annotations

from storage.records import Carried
from tests.stage import Stage


def free(stage: Stage, day: str) -> str:
    return stage.say(day).lines[-1]


def test_the_way_is_said_with_the_commitment_and_shown_with_it(stage: Stage) -> None:
    said = stage.say("dentist thu 15:00-16:00, 20 min each way")
    assert said.lines[0] == "Added: Thu 5 Mar, 15:00–16:00 dentist (20 min each way)."
    assert "Afternoon: 15:00–16:00 dentist (20 min each way)" in stage.say("thursday").lines
    assert free(stage, "thursday") == "Free: 13 h 20; 2 h 40 is kept for what comes up."


def test_it_is_said_later_and_taken_back(stage: Stage) -> None:
    stage.say("dentist thu 15:00-16:00")
    before = free(stage, "thursday")
    assert stage.say("allow 30 min before and 10 after for dentist").lines == [
        "Thu 5 Mar, 15:00–16:00 dentist (30 min before, 10 min after).",
        "The plan leaves that time free.",
    ]
    assert free(stage, "thursday") == "Free: 13 h 20; 2 h 40 is kept for what comes up."
    stage.tap("Undo")
    assert free(stage, "thursday") == before


def test_said_to_the_bots_message_it_is_about_that_commitment(stage: Stage) -> None:
    (added,) = stage.say("dentist thu 15:00-16:00").parcels
    stage.house.database.outbox.note_and_take([Carried(added.id, "m1")], (), stage.now)
    assert stage.say("20 min each way", replies_to="m1").lines[0] == "Thu 5 Mar, 15:00–16:00 dentist (20 min each way)."


def test_said_of_nothing_it_asks_for_a_name(stage: Stage) -> None:
    assert stage.say("20 min each way").text.startswith("I cannot tell which commitment you mean.")


def test_what_is_usual_holds_for_all_but_those_of_which_something_else_was_said(stage: Stage) -> None:
    stage.say("dentist thu 15:00-16:00")
    stage.say("bank thu 9:00-10:00 no travel")
    assert (
        stage.say("travel 30 min").lines[0] == "The plan keeps 30 min free each way for every commitment, unless you say otherwise for one."
    )
    assert free(stage, "thursday") == "Free: 12 h; 2 h 24 is kept for what comes up."
    assert "Time for the way to a commitment: 30 min each way" in stage.say("settings").lines
    stage.say("travel off")
    assert free(stage, "thursday") == "Free: 13 h; 2 h 36 is kept for what comes up."


def test_the_plan_of_a_day_leaves_the_way_free(stage: Stage) -> None:
    stage.say("fair thu 6:00-20:00, 30 min after")
    stage.say("task call Ann thursday 15m")
    stage.say("free share 0")
    assert stage.say("plan thursday").lines[1] == "20:30–20:45 1 call Ann"


def test_hours_on_the_way_are_refused_with_its_name(stage: Stage) -> None:
    stage.say("dentist tue 15:00-16:00, 20 min each way")
    stage.say("task order spokes tomorrow 30m")
    stage.at("2026-03-03 06:00")
    assert stage.say("16-17 spokes").text == "Those hours are for the way to or from dentist, 15:00. The plan stays."
    assert "16:30–17:00 1 order spokes" in stage.say("16:30-17 spokes").lines


def test_the_week_has_less_room_for_goals_where_the_way_is_long(stage: Stage) -> None:
    stage.say("shift every day 6:00-19:00 workshop")
    stage.say("free share 0")
    stage.say("goal write the report learning 23h")
    assert "No room" not in stage.say("plan week").text
    stage.say("allow 60 min after for workshop")
    assert "No room for 5 h of write the report" in stage.say("plan week").text
