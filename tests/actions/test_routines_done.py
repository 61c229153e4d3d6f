"""A routine that is told as done has its hours, and is neither planned nor asked for again that day."""

from __future__ import annotations

import pytest

from tests.stage import Stage

EVERY_WAY = ("done exercise", "exercise done", "did my exercise", "exercise is done", "finished exercise")


@pytest.fixture
def routine(stage: Stage) -> Stage:
    stage.jump("2026-03-02 06:00")
    stage.say("routine exercise 30m every day 7-9 home")
    return stage


@pytest.mark.parametrize("said", EVERY_WAY)
def test_it_logs_its_length_in_its_category(routine: Stage, said: str) -> None:
    answer = routine.say(said)
    assert answer.lines == ["Home, Mon 2 Mar: 30 min", "Done today: exercise.", "Home today: 30 min in all."]
    assert routine.say(said).text == "exercise is done already. Nothing changed."
    routine.say("undo")
    assert routine.say(said).text == answer.text


@pytest.mark.parametrize("said", ["exercise 40 min", "40m exercise", "did my exercise 40m", "exercise done in 40m", "40m home - exercise"])
def test_or_the_length_that_is_said(routine: Stage, said: str) -> None:
    assert routine.say(said).lines[:2] == ["Home, Mon 2 Mar: 40 min", "Done today: exercise."]


@pytest.mark.parametrize(
    "said",
    [
        "exercise done yesterday",
        "did exercise yesterday",
        "done exercise sunday",
        "yesterday 30m exercise",
        "exercise yesterday done",
        "yesterday exercise done",
        "yesterday exercise is done",
        "done yesterday exercise",
        "exercise on sunday is done",
    ],
)
def test_of_another_day_it_is_that_days(routine: Stage, said: str) -> None:
    assert routine.say(said).lines[:2] == ["Home, Sun 1 Mar: 30 min", "Done yesterday: exercise."]
    assert "07:00–07:30 exercise" in routine.say("plan").lines
    assert routine.say("exercise done").lines[1] == "Done today: exercise."


def test_the_day_is_kept_through_the_question_which_category_it_was(stage: Stage) -> None:
    stage.say("routine walk 20m every day")
    assert "yesterday 20m family - walk" in stage.say("walk yesterday done").labels
    assert stage.tap("yesterday 20m family - walk").lines[0] == "Family, Sun 1 Mar: 20 min"


def test_done_it_is_not_planned_again_that_day(routine: Stage) -> None:
    routine.say("exercise done")
    assert "exercise" not in routine.say("plan").text
    assert "07:00–07:30 exercise" in routine.say("plan tomorrow").lines


def test_its_block_of_later_that_day_goes_and_an_undo_brings_it_back(routine: Stage) -> None:
    routine.say("plan")
    routine.tap("Accept the plan")
    routine.say("exercise done")
    assert routine.look(lambda desk: desk.blocks.all()) == ()
    routine.say("undo")
    assert len(routine.look(lambda desk: desk.blocks.all())) == 1  # type: ignore[arg-type]


def test_the_evening_does_not_ask_for_it(routine: Stage) -> None:
    routine.say("appt today 06:15-06:45 breakfast club home minor")
    routine.say("plan")
    routine.tap("Accept the plan")
    routine.jump("2026-03-02 12:00")
    routine.say("exercise done")
    nudge = routine.at("2026-03-02 20:00")
    assert "breakfast club" in nudge.text
    assert "exercise" not in nudge.text


def test_the_evenings_button_for_its_block_says_that_it_was_done(routine: Stage) -> None:
    routine.say("plan")
    routine.tap("Accept the plan")
    routine.at("2026-03-02 20:00")
    assert "Done today: exercise." in routine.tap("Log home 07:00–07:30").lines


def test_of_hours_that_the_plan_rounded_up_its_own_length_is_logged(stage: Stage) -> None:
    stage.jump("2026-03-02 06:00")
    stage.say("routine walk 20m every day 7-9 home")
    stage.say("plan")
    assert "07:00–07:30 walk" in stage.tap("Accept the plan").lines
    assert "07:00–07:20 walk" in stage.at("2026-03-02 20:00").lines
    assert stage.tap("Log home 07:00–07:20").lines[0] == "Home, Mon 2 Mar, 07:00–07:20: 20 min"
    stage.say("undo")
    assert stage.say("walk as planned").lines[0] == "Home, Mon 2 Mar, 07:00–07:20: 20 min"


def test_hours_that_were_said_for_it_are_logged_whole(stage: Stage) -> None:
    stage.jump("2026-03-02 06:00")
    stage.say("routine walk 20m every day home")
    stage.say("18-19 walk")
    stage.at("2026-03-02 20:00")
    assert stage.tap("Log home 18:00–19:00").lines[0] == "Home, Mon 2 Mar, 18:00–19:00: 1 h"


def test_its_block_is_moved_and_left_out_by_its_name(routine: Stage) -> None:
    routine.say("plan")
    assert "18:00–19:00 exercise" in routine.say("18-19 exercise").lines
    assert routine.say("not today exercise").lines[0] == "Left out today: exercise."
    assert "exercise" not in routine.say("today").text


def test_a_clock_that_runs_gives_a_routine_no_category(stage: Stage) -> None:
    stage.say("routine quiet time 20m every day 18-20")
    stage.say("in workshop")
    assert stage.say("done quiet time").text == "Which do you mean?"


def test_one_without_a_category_asks_once_and_learns_it(stage: Stage) -> None:
    stage.say("routine quiet time 20m every day 18-20")
    assert stage.say("done quiet time").text == "Which do you mean?"
    assert stage.tap("20m home - quiet time").lines == [
        "Home, Mon 2 Mar: 20 min",
        "Done today: quiet time.",
        "From now on quiet time counts for Home.",
        "Home today: 20 min in all.",
    ]
    stage.jump("2026-03-03 09:00")
    assert stage.say("quiet time done").lines[0] == "Home, Tue 3 Mar: 20 min"
    stage.say("undo")
    stage.say("undo")
    assert stage.say("done quiet time").text == "Which do you mean?"


@pytest.fixture
def bare(stage: Stage) -> Stage:
    """A plan accepted with a routine that counts for nothing, at three in the afternoon."""
    stage.jump("2026-03-02 15:00")
    stage.say("routine quiet time 20m every day 18-20")
    stage.say("plan")
    stage.tap("Accept the plan")
    return stage


def test_one_without_a_category_may_be_done_without_hours(bare: Stage) -> None:
    assert bare.say("done quiet time").labels[:2] == ["Done, without hours", "20m workshop - quiet time"]
    assert bare.tap("Done, without hours").text == "Done today: quiet time."
    assert bare.look(lambda desk: (desk.stints.all(), desk.blocks.all())) == ((), ())
    assert bare.say("quiet time done").text == "quiet time is done already. Nothing changed."
    assert "quiet time" not in bare.say("plan").text
    assert "18:00–18:30 quiet time" in bare.say("plan tomorrow").lines


def test_once_done_without_hours_it_is_not_asked_again(bare: Stage) -> None:
    bare.say("done quiet time")
    bare.tap("Done, without hours")
    bare.jump("2026-03-03 09:00")
    assert bare.say("quiet time done").text == "Done today: quiet time."
    assert bare.say("quiet time done on sunday").text == "Done Sun 1 Mar: quiet time."
    assert bare.say("quiet time done yesterday").text == "quiet time is done already. Nothing changed."


def test_done_without_hours_is_taken_back_with_its_block(bare: Stage) -> None:
    bare.say("done quiet time")
    bare.tap("Done, without hours")
    bare.say("undo")
    assert bare.look(lambda desk: (desk.tasks.all(), len(desk.blocks.all()))) == ((), 1)
    assert bare.say("done quiet time").labels[0] == "Done, without hours"


def test_hours_of_one_that_was_done_without_any_are_learned_from_as_ever(bare: Stage) -> None:
    bare.say("done quiet time")
    bare.tap("Done, without hours")
    bare.jump("2026-03-03 09:00")
    assert "From now on quiet time counts for Home." in bare.say("20m home - quiet time").lines
    bare.jump("2026-03-04 09:00")
    assert bare.say("done quiet time").lines[0] == "Home, Wed 4 Mar: 20 min"


def test_a_task_of_that_name_is_closed_first(routine: Stage) -> None:
    routine.say("task exercise today")
    assert routine.say("done exercise").text == "Closed: exercise."


def test_words_that_fit_a_task_as_well_mean_it_unless_they_are_the_routines_title(routine: Stage) -> None:
    routine.say("task exercise sheet for the course today")
    assert routine.say("done exercise").lines[1] == "Done today: exercise."
    assert routine.say("done exercise sheet").text == "Closed: exercise sheet for the course."


@pytest.mark.parametrize("said", ["exercise", "Exercise!", "my exercise", "exercise today", "exercise for today."])
def test_its_bare_name_asks_whether_it_is_done_or_left_out(routine: Stage, said: str) -> None:
    asked = routine.say(said)
    assert asked.text == "Is that done, or not for today?"
    assert asked.labels == ["Done", "Not for today"]
    assert routine.tap("Done").lines[1] == "Done today: exercise."


def test_left_out_by_its_bare_name_it_leaves_todays_plan(routine: Stage) -> None:
    routine.say("plan")
    routine.tap("Accept the plan")
    routine.say("exercise")
    assert routine.tap("Not for today").lines == ["Left out today: exercise.", "Your plan for today:", "Nothing planned."]
    assert routine.look(lambda desk: desk.blocks.all()) == ()


@pytest.mark.parametrize(
    "said", ["skip exercise", "skip exercise today", "no exercise today", "no time for my exercise today", "leave out exercise"]
)
def test_skipped_it_leaves_todays_plan_and_stays_a_routine(routine: Stage, said: str) -> None:
    routine.say("plan")
    routine.tap("Accept the plan")
    routine.say(said)
    assert routine.look(lambda desk: (desk.blocks.all(), len(desk.routines.all()))) == ((), 1)
    routine.say("undo")
    assert len(routine.look(lambda desk: desk.blocks.all())) == 1  # type: ignore[arg-type]


def test_dropped_by_its_bare_name_it_is_asked_for_how_long(routine: Stage) -> None:
    asked = routine.say("drop exercise")
    assert asked.text == "Only today, or for good?"
    assert asked.labels == ["Only today", "For good"]
    routine.tap("For good")
    assert routine.look(lambda desk: desk.routines.all()) == ()


def test_its_name_and_a_day_before_offers_to_note_it_as_done(routine: Stage) -> None:
    assert routine.say("exercise yesterday").labels[0] == "done exercise yesterday"
    assert routine.tap("done exercise yesterday").lines[1] == "Done yesterday: exercise."


def test_a_task_of_its_very_title_is_meant_rather(routine: Stage) -> None:
    routine.say("task exercise")
    assert routine.say("exercise").lines[0] == "I did not understand that, so nothing is recorded."
    assert "exercise" in routine.say("skip exercise").text
    assert routine.look(lambda desk: (len(desk.routines.all()), [each.state.value for each in desk.tasks.all()])) == (1, ["dropped"])


def test_cancelled_by_its_name_it_is_asked_for_how_long_or_left_out_of_the_day_said(routine: Stage) -> None:
    asked = routine.say("cancel exercise")
    assert (asked.text, asked.labels) == ("Only today, or for good?", ["Only today", "For good"])
    assert routine.say("cancel exercise today").lines[0] == "Left out today: exercise."
    assert routine.say("cancel exercise tomorrow").text == (
        "“exercise” is a routine, which is left out on the day itself: write “skip exercise” then."
    )


def test_a_commitment_of_its_name_is_cancelled_rather(routine: Stage) -> None:
    routine.say("appt thu 18-19 exercise")
    assert routine.say("cancel exercise").text == "Cancelled: Thu 5 Mar, 18:00–19:00 exercise."


def test_a_task_cancelled_by_its_very_title_is_dropped(stage: Stage) -> None:
    stage.say("task call the glazier")
    assert stage.say("cancel glazier").text == "I find no commitment “glazier” from today on."
    assert stage.say("cancel call the glazier").text == "Dropped: call the glazier."


@pytest.mark.parametrize("said", ["skip yoga", "not today yoga", "later yoga", "cancel yoga today"])
def test_one_that_is_not_due_today_says_when_it_is_next(stage: Stage, said: str) -> None:
    stage.say("routine yoga 40m every sat")
    assert stage.say(said).text == "Today's plan has nothing of “yoga”, which is due next on Sat 7 Mar."


def test_a_routine_may_be_told_in_the_past(stage: Stage) -> None:
    stage.say("routine walk the dog 20m every day home")
    assert stage.say("walked the dog").lines[:2] == ["Home, Mon 2 Mar: 20 min", "Done today: walk the dog."]
