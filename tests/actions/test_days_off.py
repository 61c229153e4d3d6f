"""Who is sick or off is offered what may be wanted, and nothing is done before a tap."""

from __future__ import annotations

from tests.stage import Stage

LAST = "Nothing else is changed before you tap."


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
        "Get well soon. Noted: sick today.",
        "Tue 3 Mar, 08:30–11:30 workshop shift",
        "Tue 3 Mar, 13:00–17:00 museum shift",
        "Tue 3 Mar, 18:00–19:00 dentist",
        "2 open tasks: order spokes and call the glazier.",
        "Nothing else is changed before you tap.",
    ]
    assert answer.labels == [
        "Cancel all 2 shifts",
        "Cancel 08:30–11:30 workshop shift",
        "Cancel 13:00–17:00 museum shift",
        "Cancel 18:00–19:00 dentist",
        "Push 2 tasks to Wed 4 Mar",
        "Undo",
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


def test_what_is_over_and_has_its_hours_is_not_offered_and_no_shift_is_cancelled_unasked(stage: Stage) -> None:
    filled(stage)
    stage.jump("2026-03-03 12:00")
    stage.say("workshop 8:30-11:30")
    answer = stage.say("sick")
    assert answer.labels == ["Cancel 13:00–17:00 museum shift", "Cancel 18:00–19:00 dentist", "Push 2 tasks to Wed 4 Mar", "Undo"]
    assert "museum shift" in stage.say("today").text


def test_the_shift_of_the_morning_is_offered_when_it_is_over_and_then_asked_about_no_more(stage: Stage) -> None:
    filled(stage)
    stage.jump("2026-03-03 17:30")
    assert stage.say("sick today").labels[0] == "Cancel all 2 shifts"
    stage.tap("Cancel all 2 shifts")
    assert "shift" not in stage.at("2026-03-03 21:00").text


def test_of_a_day_that_is_over_only_the_shifts_without_hours_are_offered(stage: Stage) -> None:
    filled(stage)
    stage.say("workshop 8:30-11:30 today")
    stage.jump("2026-03-04 09:00")
    answer = stage.say("i was sick yesterday too")
    assert answer.lines == ["Noted: sick yesterday.", "Tue 3 Mar, 08:30–11:30 workshop shift", "Tue 3 Mar, 13:00–17:00 museum shift", LAST]
    stage.tap("Cancel 13:00–17:00 museum shift")
    stage.say("yesterday workshop 8:30-11:30")
    assert stage.say("was sick yesterday").lines == [
        "Noted: sick yesterday.",
        "No shift of yesterday waits for hours, so there is nothing to change.",
    ]


def test_a_shift_that_the_other_side_calls_off_does_not_take_place(stage: Stage) -> None:
    stage.say("museum shift every tue 13-17")
    assert "Cancelled" in stage.say("no museum tomorrow").text
    assert "museum" not in stage.say("tomorrow").text
    stage.say("undo")
    assert "museum shift" in stage.say("tomorrow").text


def test_the_recap_names_the_sick_days_and_an_undo_takes_one_back(stage: Stage) -> None:
    for day in ("2026-03-04", "2026-03-05"):
        stage.jump(f"{day} 09:00")
        stage.say("sick")
        stage.say("sick")
    assert "Sick: Wed, Thu." in stage.say("recap").lines
    stage.say("undo")
    assert "Sick: Wed." in stage.say("recap").lines


def test_of_several_days_each_is_noted_and_one_undo_takes_them_back(stage: Stage) -> None:
    answer = filled(stage).say("sick until thursday")
    assert [line for line in answer.lines if "Noted" in line] == [
        "Get well soon. Noted: sick today.",
        "Get well soon. Noted: sick tomorrow.",
        "Get well soon. Noted: sick Thu 5 Mar.",
    ]
    assert stage.look(lambda desk: [each.day.day for each in desk.sick_days.all()]) == [3, 4, 5]
    stage.tap("Undo")
    assert stage.look(lambda desk: desk.sick_days.all()) == ()


def test_of_a_sick_day_no_hours_are_asked_for(stage: Stage) -> None:
    filled(stage).say("sick today")
    stage.say("drop all")
    assert "with no hours yet" not in stage.at("2026-03-03 20:05").text.split("Before Tuesday ends")[-1]
    assert "No hours yet" not in stage.at("2026-03-04 06:05").text
    assert "without hours" not in stage.say("timesheet museum").text
    assert "Planned and not noted" not in stage.say("recap").text
    assert "Sick: Tue." in stage.say("recap").text


def test_taking_back_a_day_off_that_changed_nothing_yet_takes_back_nothing_older(stage: Stage) -> None:
    filled(stage)
    stage.say("2h museum yesterday")
    stage.say("day off today")
    answer = stage.say("undo")
    assert answer.lines[0].startswith("Your last message changed nothing, so there is nothing of it to take back.")
    assert "Museum: 2 h" in stage.say("hours yesterday").text
