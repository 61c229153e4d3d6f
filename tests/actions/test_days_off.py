"""Who is sick or off is offered what may be wanted, and nothing is done before a tap."""

from __future__ import annotations

from tests.stage import Stage


def filled(stage: Stage) -> Stage:
    stage.say("museum shift every tue 13-17")
    stage.say("appt tomorrow 08:30-11:30 workshop shift workshop")
    stage.say("appt tomorrow 18:00-19:00 dentist")
    stage.say("task order spokes tomorrow")
    stage.say("task call the glazier tomorrow")
    stage.jump("2026-03-03 08:00")
    return stage


def test_the_shifts_and_tasks_of_the_day_are_offered(stage: Stage) -> None:
    answer = filled(stage).say("sick today")
    assert answer.lines == [
        "Get well soon.",
        "Tue 3 Mar, 08:30–11:30 workshop shift",
        "Tue 3 Mar, 13:00–17:00 museum shift",
        "Tue 3 Mar, 18:00–19:00 dentist",
        "2 open tasks: order spokes and call the glazier.",
        "Nothing is changed before you tap.",
    ]
    assert answer.labels == [
        "Cancel all 2 shifts",
        "Cancel 08:30–11:30 workshop shift",
        "Cancel 13:00–17:00 museum shift",
        "Cancel 18:00–19:00 dentist",
        "Push 2 tasks to Wed 4 Mar",
    ]


def test_a_tap_cancels_the_days_shifts_and_one_undo_brings_them_back(stage: Stage) -> None:
    filled(stage).say("I'm sick")
    before = stage.say("today").text
    stage.tap("Cancel all 2 shifts")
    day = stage.say("today").text
    assert "shift" not in day
    assert "dentist" in day
    assert "museum shift" in stage.say("2026-03-10").text
    stage.say("undo")
    assert stage.say("today").text == before


def test_a_tap_pushes_the_days_tasks(stage: Stage) -> None:
    filled(stage).say("day off")
    assert stage.tap("Push 2 tasks to Wed 4 Mar").text == "Pushed to tomorrow: order spokes and call the glazier."
    stage.say("undo")
    assert len(stage.say("tasks").lines) == 3


def test_a_day_with_nothing_on_it_needs_nothing(stage: Stage) -> None:
    answer = stage.say("day off tomorrow")
    assert answer.text == "Nothing is fixed for tomorrow and no task is open, so there is nothing to change."
    assert answer.labels == []


def test_what_is_over_is_not_offered_and_asking_changes_nothing(stage: Stage) -> None:
    filled(stage)
    stage.jump("2026-03-03 12:00")
    answer = stage.say("sick")
    assert answer.labels == ["Cancel 13:00–17:00 museum shift", "Cancel 18:00–19:00 dentist", "Push 2 tasks to Wed 4 Mar"]
    assert "museum shift" in stage.say("today").text
