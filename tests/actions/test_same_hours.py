"""Hours of today told by those of a day before."""

from __future__ import annotations

from tests.stage import Stage


def test_the_hours_of_a_category_are_logged_as_they_were_noted_the_day_before(stage: Stage) -> None:
    stage.jump("2026-03-02 18:00")
    stage.say("museum 9-13 less 30m, 2h course")
    stage.jump("2026-03-03 18:00")
    assert stage.say("museum same as yesterday").lines[0] == "Museum, Tue 3 Mar, 09:00–13:00, less 30 min: 3 h 30"
    assert stage.look(lambda desk: [(each.day.day, each.minutes, each.break_minutes) for each in desk.stints.all()]) == [
        (2, 210, 30),
        (2, 120, 0),
        (3, 210, 30),
    ]
    stage.tap("Undo")
    assert stage.look(lambda desk: len(desk.stints.all())) == 2


def test_without_a_category_all_hours_of_that_day_are_meant(stage: Stage) -> None:
    stage.jump("2026-03-02 18:00")
    stage.say("museum 9-13, 2h course")
    stage.jump("2026-03-03 18:00")
    assert "Tue 3 Mar" in stage.say("same as yesterday").text
    assert stage.look(lambda desk: [(each.day.day, each.minutes) for each in desk.stints.all()][2:]) == [(3, 120), (3, 240)]


def test_a_day_without_such_hours_logs_nothing(stage: Stage) -> None:
    answer = stage.say("workshop same as yesterday").text
    assert answer.startswith("No such hours are noted: Workshop, yesterday.")
    assert stage.look(lambda desk: desk.stints.all()) == ()
