"""What a timesheet says of what it leaves out."""

from __future__ import annotations

from tests.stage import Stage


def test_hours_from_before_the_first_rate_are_named_beside_the_pay_of_the_others(stage: Stage) -> None:
    stage.jump("2026-03-12 20:00")
    stage.say("2 march museum 13-15")
    stage.say("10 march museum 13-16")
    stage.say("rate museum 15 from 9 march")
    lines = stage.say("timesheet museum").lines
    assert lines[-2].startswith("Gross pay, estimated: 45.00 EUR.")
    assert lines[-1] == "2 h from before the first rate are not in it."


def test_planned_shifts_without_hours_are_named_before_they_are_handed_in(stage: Stage) -> None:
    stage.say("museum shift every mon, tue and thu 13-17")
    stage.jump("2026-03-12 20:00")
    stage.say("10 march museum 13-17")
    missing = "5 planned shifts have no hours: Mon 2 Mar, 13:00–17:00; Tue 3 Mar, 13:00–17:00; Thu 5 Mar, 13:00–17:00; 2 more."
    assert missing in stage.say("timesheet museum").lines
    assert missing in stage.say("handed in museum").lines
    for said in ("2 march museum 13-17", "3 march museum 13-17", "5 march museum 13-17", "9 march museum 13-17"):
        stage.say(said)
    assert "1 planned shift has no hours: Thu 12 Mar, 13:00–17:00." in stage.say("timesheet museum").lines
    stage.say("museum 13-17")
    assert "planned shift" not in stage.say("timesheet museum").text


def test_a_day_with_times_and_without_says_so(stage: Stage) -> None:
    stage.jump("2026-03-04 20:00")
    stage.say("workshop 14:30-15:20")
    stage.say("1h workshop")
    assert "Wed 4 Mar: 14:30–15:20, and some without times: 1 h 50" in stage.say("timesheet workshop").lines
