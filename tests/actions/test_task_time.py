"""Hours that are told of a task are taken off what it still wants, wherever it was told: by its block, its title or its number."""

from __future__ import annotations

import pytest

from storage.records import Stint
from tests.stage import Stage


def planned(stage: Stage) -> Stage:
    """A plan accepted in the morning, with three hours of a task in one piece."""
    stage.jump("2026-03-02 06:00")
    stage.say("task translation today 3h learning")
    stage.say("appt today 7-13 fair minor")
    stage.say("plan")
    stage.tap("Accept the plan")
    stage.jump("2026-03-02 16:00")
    return stage


def stints(stage: Stage) -> list[Stint]:
    found = stage.look(lambda desk: desk.stints.all())
    assert isinstance(found, tuple)
    return list(found)


def wanted_tomorrow(stage: Stage) -> list[str]:
    stage.say("push translation")
    return [line for line in stage.say("plan tomorrow").lines if "translation" in line]


@pytest.mark.parametrize("said", ["as planned", "translation as planned", "learning as planned"])
def test_its_block_is_told_as_planned(stage: Stage, said: str) -> None:
    planned(stage)
    answer = stage.say(said)
    assert "For translation: 1 h left." in answer.lines or "For translation: nothing is left of its estimate." in answer.lines
    assert all(each.task_ids for each in stints(stage))
    assert stage.say(said).text != answer.text


def test_the_evenings_button_logs_a_block_on_its_task(stage: Stage) -> None:
    planned(stage)
    label = next(label for label in stage.at("2026-03-02 20:00").labels if label.startswith("Log "))
    assert any(line.startswith("For translation:") for line in stage.tap(label).lines)
    assert stints(stage)[0].task_ids != ()


@pytest.mark.parametrize("said", ["1h translation", "1h on the translation", "1h on 1", "1h learning on 1", "1h learning - translation"])
def test_hours_by_its_title_or_number_are_taken_off_its_estimate(stage: Stage, said: str) -> None:
    stage.say("task translation today 3h learning")
    assert stage.say(said).lines == ["Learning, Mon 2 Mar: 1 h", "For translation: 2 h left.", "Learning today: 1 h in all."]
    assert stage.say("tasks").lines == ["Tasks of Monday 2 March", "1 translation, 2 h"]
    assert wanted_tomorrow(stage) == ["06:00–08:00 1 translation"]


def test_undo_gives_the_time_back(stage: Stage) -> None:
    stage.say("task translation today 3h learning")
    stage.say("1h translation")
    stage.say("undo")
    assert stage.say("tasks").lines == ["Tasks of Monday 2 March", "1 translation, 3 h"]


def test_a_correction_changes_what_is_left(stage: Stage) -> None:
    stage.say("task translation today 3h learning")
    stage.say("1h translation")
    assert "For translation: 1 h left." in stage.say("no, 2h").lines


def test_an_estimate_that_is_used_up_wants_no_more_time_and_offers_to_close(stage: Stage) -> None:
    stage.say("task translation today 1h learning")
    answer = stage.say("2h translation")
    assert "For translation: nothing is left of its estimate." in answer.lines
    assert wanted_tomorrow(stage) == []
    assert any("translation" in line for line in stage.say("tasks tomorrow").lines)
    assert stage.tap("Close translation").text == "Closed: translation."


def test_what_the_days_tasks_need_is_what_is_left_of_them(stage: Stage) -> None:
    stage.say("task translation today 3h learning")
    stage.say("2h30 translation")
    assert any("Tasks need 30 min" in line for line in stage.say("today").lines)


def test_a_task_that_waits_as_a_goal_wants_what_is_left(stage: Stage) -> None:
    stage.say("task translation today 3h learning")
    stage.say("1h translation")
    stage.say("push 1 to next week")
    stage.jump("2026-03-09 09:00")
    assert "Personal: translation, 2 h" in stage.say("goals").lines


def test_of_a_task_without_a_category_it_is_asked_for_unless_a_clock_runs(stage: Stage) -> None:
    stage.say("task translation today")
    answer = stage.say("1h translation")
    assert answer.text == "Which do you mean?"
    assert stage.tap("1h learning on 1").lines[:2] == ["Learning, Mon 2 Mar: 1 h", "For translation."]
    stage.say("in museum")
    stage.jump("2026-03-02 11:00")
    assert stage.say("20m translation").lines[:2] == ["Museum, Mon 2 Mar: 20 min", "Museum, as you are clocked in there."]


def test_a_question_answered_the_next_day_is_about_the_same_task(stage: Stage) -> None:
    stage.say("task translation today")
    stage.say("1h translation")
    stage.at("2026-03-03 09:00")
    stage.say("push all to friday")
    stage.say("task order spokes today workshop")
    assert stage.tap("1h learning on 1").lines[1] == "For translation."


def test_where_nothing_planned_waits_the_answer_says_what_would_work(stage: Stage) -> None:
    answer = stage.say("as planned")
    assert (
        answer.text == "No planned hours of today wait to be logged, so nothing was logged. Write what you did, for example “2h workshop”."
    )
    assert answer.labels == []
    assert stints(stage) == []


def test_one_that_is_used_up_wants_nothing_however_long_such_tasks_took(stage: Stage) -> None:
    for day in ("02", "03", "04", "05", "06"):
        stage.at(f"2026-03-{day} 09:00")
        stage.say("task sort the screws today 1h learning")
        stage.say("done sort the screws 90m")
    stage.say("task translation today 1h learning")
    stage.say("1h translation")
    assert wanted_tomorrow(stage) == []


def test_hours_by_times_alone_are_for_the_task_that_was_planned_then(stage: Stage) -> None:
    planned(stage)
    assert "For translation: 2 h left." in stage.say("learning 13-14").lines
    stage.say("in learning at 14")
    assert "For translation: 1 h left." in stage.say("out 15").lines
    assert [each.task_ids != () for each in stints(stage)] == [True, True]


def test_they_are_not_where_another_category_a_note_or_little_of_it_was_planned_then(stage: Stage) -> None:
    planned(stage)
    for said in ("home 13-13:30", "learning 13:30-14 - vocabulary", "learning 8-13", "learning 15-15:30 tomorrow"):
        assert "translation" not in stage.say(said).text


def test_what_was_planned_and_is_noted_in_part_is_left_out_and_said(stage: Stage) -> None:
    stage.say("appt museum shift today 13-17")
    stage.say("appt workshop shift today 10-12")
    stage.at("2026-03-02 18:00")
    stage.say("museum 14-15")
    answer = stage.say("as planned")
    assert answer.lines[-1] == "In part noted before, so not logged: 13:00–17:00 museum."
    assert stage.tap("Log the rest of it").lines[-1] == "Museum today: 4 h in all."
    assert stage.say("as planned").lines[0] != answer.lines[0]


@pytest.mark.parametrize("said", ["translation 14:30-15:30", "14:30-15:30 translation", "1 at 14:30-15:30"])
def test_hours_that_are_over_cannot_be_planned_for_it_and_were_spent_on_it(stage: Stage, said: str) -> None:
    planned(stage)
    stage.jump("2026-03-02 15:30")
    before = stage.look(lambda desk: desk.blocks.all())
    assert stage.say(said).lines[:2] == ["Learning, Mon 2 Mar, 14:30–15:30: 1 h", "For translation: 2 h left."]
    assert stage.look(lambda desk: desk.blocks.all()) == before


def test_they_may_be_told_in_the_past(stage: Stage) -> None:
    stage.say("task revise the statistics today learning")
    stage.jump("2026-03-02 15:30")
    assert stage.say("revised statistics 14-15:30").lines[:2] == ["Learning, Mon 2 Mar, 14:00–15:30: 1 h 30", "For revise the statistics."]


def test_hours_that_still_run_are_planned(stage: Stage) -> None:
    planned(stage)
    stage.jump("2026-03-02 15:29")
    assert "14:30–15:30 1 translation" in stage.say("translation 14:30-15:30").lines
    assert stints(stage) == []


def test_hours_that_are_over_tell_of_a_routine_that_it_was_done(stage: Stage) -> None:
    stage.say("routine walk 20m every day home")
    stage.jump("2026-03-02 12:00")
    assert stage.say("walk 10-10:30").lines[:2] == ["Home, Mon 2 Mar, 10:00–10:30: 30 min", "Done today: walk."]
