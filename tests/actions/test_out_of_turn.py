"""Answers of the first conversation to another question than the one that was asked."""

from __future__ import annotations

import pytest

from tests.stage import Stage


@pytest.mark.parametrize(
    ("told", "kept"),
    [
        ("8-23", "Waking hours 08:00–23:00."),
        ("6:30 and 20:30", "Morning message at 06:30."),
        ("8am-11 p.m.", "Waking hours 08:00–23:00."),
        ("6:30am and 8:30 pm", "Morning message at 06:30."),
        ("12am, 12pm", "Morning message at 00:00."),
    ],
)
def test_an_answer_to_a_later_question_is_kept_and_the_same_question_asked_again(stage: Stage, told: str, kept: str) -> None:
    stage.say("/start")
    answer = stage.say(told)
    assert answer.lines[0] == kept
    assert answer.lines[-2].startswith("Where are you?")
    assert "When are you up?" in stage.say("Europe/Lisbon").text
    assert "What do your hours go to?" in stage.say("7-22").text


@pytest.mark.parametrize("told", ["13pm-10pm", "7am-0pm", "7-25"])
def test_hours_that_no_clock_shows_are_no_waking_hours(stage: Stage, told: str) -> None:
    stage.say("/start")
    stage.say(told)
    assert stage.look(lambda desk: (desk.person.waking_start.hour, desk.person.waking_end.hour)) == (6, 21)


def test_an_answer_to_an_earlier_question_corrects_it(stage: Stage) -> None:
    stage.say("/start")
    for _ in range(4):
        stage.tap("Keep this")
    assert stage.say("Europe/Lisbon").lines[0].startswith("Time zone Europe/Lisbon")
    answer = stage.say("8-23")
    assert (answer.lines[0], stage.look(lambda desk: desk.person.waking_start.hour)) == ("Waking hours 08:00–23:00.", 8)
    assert "When shall I write?" in answer.text
    assert "That is all." in stage.say("6:30 and 20:30").text


def test_what_may_mean_several_things_leaves_the_question_open(stage: Stage) -> None:
    stage.say("/start")
    asked = stage.say("3h")
    assert asked.lines[:2] == ["Which do you mean?", "Where are you? I have Ghent, Europe/Brussels."]
    assert {"3h workshop", "Keep this"} <= set(asked.labels)
    assert "When are you up?" in stage.say("Europe/Brussels").text


@pytest.mark.parametrize(
    ("told", "kept"),
    [("9am-1am", ("09:00", "01:00")), ("8 am to 11:30 pm", ("08:00", "23:30")), ("noon-2am", ("12:00", "02:00"))],
)
def test_waking_hours_may_be_told_by_halves_of_the_day(stage: Stage, told: str, kept: tuple[str, str]) -> None:
    stage.say("/start")
    stage.tap("Keep this")
    answer = stage.say(told)
    assert answer.lines[0] == f"Waking hours {kept[0]}–{kept[1]}."
    assert answer.lines[1].startswith("What do your hours go to?")


def test_times_of_messages_may_be_told_by_halves_of_the_day(stage: Stage) -> None:
    stage.say("/start")
    for _ in range(4):
        stage.tap("Keep this")
    assert stage.say("9am and 10:30pm").lines[:2] == [
        "Morning message at 09:00.",
        "Evening nudge at 22:30, only when something is open.",
    ]


def test_a_command_instead_of_an_answer_is_carried_out_and_the_question_asked_again(stage: Stage) -> None:
    stage.say("/start")
    stage.tap("Keep this")
    for command in ("today", "help", "evening 21:30"):
        assert stage.say(command).lines[-2].startswith("When are you up?")
    assert stage.say("waking 9-24").lines[:2] == [
        "Waking hours 09:00–00:00.",
        "What do your hours go to? I have Workshop, Museum, Learning, Family and Home.",
    ]


@pytest.mark.parametrize("said", ["Skip the rest", "skip all."])
def test_the_questions_that_are_left_are_skipped_by_words_too(stage: Stage, said: str) -> None:
    stage.say("task order spokes")
    stage.say("/start")
    assert "That is all." in stage.say(said).text
    assert stage.say("tasks").lines[1] == "1 order spokes"


@pytest.mark.parametrize("said", ["hi", "Hello!"])
def test_a_greeting_as_the_very_first_word_begins_the_conversation(stage: Stage, said: str) -> None:
    assert stage.say(said).lines[0] == "Weekwright keeps your week"
    stage.say("skip the rest")
    assert stage.say(said).lines[0] != "Weekwright keeps your week"


def test_a_question_left_open_can_be_skipped_whatever_was_said_in_between(stage: Stage) -> None:
    stage.say("/start")
    stage.say("2h workshop")
    assert "When are you up?" in stage.say("skip").text
    stage.say("Skip.")
    assert "Which of them are paid jobs?" in stage.say("skip").text
