"""Erasing by chat: asked once more, done whole, and never by an old button."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.stage import Stage
from tests.storage.given import tables

ASKED = ["/erase", "erase everything", "Erase me.", "forget me", "delete all my data"]


@pytest.mark.parametrize("said", ASKED)
def test_it_is_asked_once_more(stage: Stage, said: str) -> None:
    answer = stage.say(said)
    assert answer.lines[0] == "Erase everything?"
    assert answer.labels == ["Erase everything", "Keep it all"]
    assert "Workshop" in stage.say("2h workshop").text


def test_a_tap_erases_all_and_the_last_word_belongs_to_nobody(stage: Stage, tmp_path: Path) -> None:
    stage.say("task a secret title")
    stage.say("erase everything")
    answer = stage.tap("Erase everything")
    assert answer.text == (
        "Everything of yours is erased. Where I make daily backups, they forget it at their next round, within a day; "
        "copies made in any other way stay as they are. Goodbye, and good weeks."
    )
    assert [parcel.person_id for parcel in stage.parcels()] == [None]
    assert stage.house.database.people.all() == ()
    left = tables(stage.house.database)
    assert {name for name, rows in left.items() if rows} == {"parcels", "handled", "erased"} | {"alembic_version"} & set(left)
    # Of a server's files nothing is promised; of our own it is.
    assert b"a secret title" not in b"".join(path.read_bytes() for path in tmp_path.glob("*"))


def test_keeping_it_all_changes_nothing(stage: Stage) -> None:
    stage.say("2h workshop")
    stage.say("erase everything")
    assert stage.tap("Keep it all").text == "Nothing was erased."
    assert "2 h" in stage.say("hours").text


def test_an_old_button_does_no_harm(stage: Stage) -> None:
    stage.say("erase everything")
    stage.jump("2026-03-02 10:01")
    assert stage.tap("Erase everything").text == "That button is no longer of use. Nothing changed."
    assert len(stage.house.database.people.all()) == 1


def test_nobody_erases_anyone_else(stage: Stage, tmp_path: Path) -> None:
    stage.say("erase everything")
    data = stage.button("Erase everything")
    other = Stage(tmp_path, me="stage:other", url=stage.url)
    other.hear_tap(data)
    assert len(other.house.database.people.all()) == 2
    other.close()


def test_who_comes_back_starts_anew(stage: Stage) -> None:
    stage.say("2h workshop")
    stage.say("erase everything")
    stage.tap("Erase everything")
    assert "2 h" not in stage.say("hours").text


def test_no_words_alone_erase(stage: Stage) -> None:
    for words in ("set erase everything", "erase: everything", "erase everything; erase everything", "yes", "Erase everything?"):
        stage.say("erase everything")
        stage.say(words)
    assert len(stage.house.database.people.all()) == 1


def test_undo_puts_the_question_down_and_takes_nothing_back(stage: Stage) -> None:
    stage.say("2h workshop")
    stage.say("erase everything")
    assert stage.say("undo").text == "Nothing was erased."
    assert "2 h" in stage.say("hours").text
    assert stage.tap("Erase everything").text == "That button is no longer of use. Nothing changed."
    assert stage.say("undo").text.startswith("Taken back: “Workshop")


def test_undo_with_nothing_done_before_says_that_nothing_was_erased(stage: Stage) -> None:
    stage.say("erase everything")
    assert stage.say("undo").text == "Nothing was erased."


def test_who_chose_to_keep_it_all_erases_by_no_button_of_that_question(stage: Stage) -> None:
    stage.say("erase everything")
    stage.tap("Keep it all")
    assert stage.tap("Erase everything").text == "That button is no longer of use. Nothing changed."
    stage.say("erase everything")
    stage.tap("Erase everything")
    assert stage.house.database.people.all() == ()
