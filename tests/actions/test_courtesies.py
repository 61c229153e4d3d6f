"""Whoever is polite gets a short answer, without a button, and nothing is changed."""

from __future__ import annotations

from tests.stage import Stage


def test_thanks_and_greetings_are_answered_in_a_sentence(stage: Stage) -> None:
    stage.say("/start")
    stage.tap("Skip the rest")
    for said, answer in (
        ("thanks", "You are welcome."),
        ("good morning", "Good morning. “today” shows your day."),
        ("ok", "All right, nothing changed. To answer a question of mine, tap one of its buttons."),
        ("bye", "See you."),
    ):
        heard = stage.say(said)
        assert (heard.text, heard.labels) == (answer, [])
    stage.jump("2026-03-02 21:30")
    assert stage.say("good night").text == "Good night."
    assert stage.say("hello").text == "Good evening. “today” shows your day."
    assert stage.say("undo").text.startswith("Taken back: “That is all.")


def test_a_question_stays_open(stage: Stage) -> None:
    stage.say("7-9 workshop")
    stage.say("8-8:30 museum")
    stage.say("ok")
    assert "Museum, Mon 2 Mar" in stage.tap("Keep both").lines[0]


def test_a_message_edited_to_thanks_leaves_what_it_did(stage: Stage) -> None:
    stage.say("2h workshop")
    assert stage.edit("thanks").lines[0] == "I did not understand that, so this stays: Workshop, Mon 2 Mar: 2 h"
