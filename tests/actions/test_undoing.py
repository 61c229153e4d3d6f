"""Undo, in several levels, of words and of taps, and back again; byte for byte."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from tests.stage import Stage

APART = {"journal_entries", "journal_changes", "journal_numbers", "parcels", "taps", "rounds", "handled", "sqlite_sequence", "forecasts"}
"""The journal itself, and the post, which no undo can take back: what was sent was sent."""

Dump = dict[str, list[tuple[object, ...]]]


def dump(stage: Stage) -> Dump:
    """Every row of every table of what the person keeps, as it lies."""
    with closing(sqlite3.connect(stage.path)) as connection:
        names = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {name: list(connection.execute(f'SELECT * FROM "{name}"')) for name in names if name not in APART}


SETTING = (
    "task order spokes 30m workshop",
    "task call the glazier",
    "task sort the screws",
    "goal finish chapter 4 learning 3h",
    "month goal paint the shed home",
    "appt wed 10-11 dentist",
    "choir every thursday 19:30-21:00 minor",
    "target learning at least 4h",
    "yesterday 2h workshop",
    "done 3",
    "in workshop at 8:00",
    "yesterday museum 13-17",
)

ACTIONS = (
    "1h family",
    "yesterday 9-12 workshop, 1h learning",
    "no, 3h",
    "make it workshop",
    "in museum",
    "out",
    "done 1",
    "closed 1 in 45m",
    "done all",
    "done chapter 4",
    "drop 2",
    "reopen 3",
    "push 1",
    "push 1 to friday",
    "push 2 to next week",
    "push 2 to the month",
    "push chapter 4 to next week",
    "push chapter 4 to the month",
    "push chapter 4 to wednesday",
    "push paint the shed to next week",
    "task oil the chains tomorrow",
    "goal sort the tools workshop",
    "month goal read two books learning",
    "appt fri 10-11 bank",
    "shift every mon and wed 9-12 workshop",
    "move dentist to fri 16:00",
    "move choir to friday",
    "cancel dentist",
    "cancel choir thursday",
    "routine exercise 30m every day 7-8",
    "target museum at most 20h",
    "target learning at least 6h",
    "morning at 6:30",
    "waking 7-22",
    "week starts sunday",
    "zone America/New_York",
    "free share 30%",
    "dates month first",
    "done 1, push 2 to friday, 1h family",
)


@pytest.fixture
def lived_in(stage: Stage) -> Stage:
    for text in SETTING:
        stage.say(text)
    return stage


@pytest.mark.parametrize("text", ACTIONS)
def test_undo_brings_back_every_table_byte_for_byte_and_redo_the_change(lived_in: Stage, text: str) -> None:
    before = dump(lived_in)
    answer = lived_in.say(text)
    after = dump(lived_in)
    assert after != before, answer.text
    assert answer.labels[-1] == "Undo"
    lived_in.tap("Undo")
    assert dump(lived_in) == before
    assert lived_in.tap("Undo").text.startswith("Done again")
    assert dump(lived_in) == after


def test_undo_goes_back_level_by_level(lived_in: Stage) -> None:
    states = [dump(lived_in)]
    for text in ACTIONS[:8]:
        lived_in.say(text)
        states.append(dump(lived_in))
    for state in dict.fromkeys(map(repr, reversed(states[:-1]))):
        while repr(dump(lived_in)) != state:
            assert "Taken back" in lived_in.say("undo").text
    assert dump(lived_in) == states[0]


def test_an_edit_is_one_step_to_undo(lived_in: Stage) -> None:
    lived_in.say("1h family")
    before = dump(lived_in)
    lived_in.edit("2h family")
    lived_in.say("undo")
    assert dump(lived_in) == before


@pytest.mark.parametrize("word", ["undo", "redo"])
@pytest.mark.parametrize("first", ["1h family", "goal paint the fence", "task oil the chain"])
def test_a_message_edited_to_undo_takes_back_what_it_did_and_may_be_edited_again(lived_in: Stage, first: str, word: str) -> None:
    before = dump(lived_in)
    lived_in.say(first)
    assert "Taken back" in lived_in.edit(word).text
    assert dump(lived_in) == before
    lived_in.edit("2h family")
    lived_in.say("undo")
    assert dump(lived_in) == before


def test_undo_of_a_tap_is_undo_like_any_other(lived_in: Stage) -> None:
    lived_in.at("2026-03-02 20:01")
    before = dump(lived_in)
    lived_in.tap("Close 1")
    lived_in.say("undo")
    assert dump(lived_in) == before


def test_taking_back_a_reply_of_several_things_names_them_all(lived_in: Stage) -> None:
    lived_in.say("2h family, 30m home")
    assert lived_in.tap("Undo").text == "Taken back: “Family, Mon 2 Mar: 2 h; Home, Mon 2 Mar: 30 min”"
    lived_in.say("done 1, 1h family")
    assert lived_in.say("undo").text == "Taken back: “Closed: order spokes; Family, Mon 2 Mar: 1 h”"
    lived_in.say("30m family, 30m home, 30m learning, 30m museum, 15m workshop")
    assert lived_in.say("undo").text.endswith("Learning, Mon 2 Mar: 30 min; 2 more”")


def test_an_undo_button_works_once(lived_in: Stage) -> None:
    lived_in.say("1h family")
    data = lived_in.button("Undo")
    lived_in.tap("Undo")
    again = lived_in.hear_tap(data)
    assert again.text == "That was taken back already. Nothing changed."


def test_what_changed_since_is_left_as_it_is(lived_in: Stage) -> None:
    lived_in.say("task wash the van")
    data = lived_in.button("Undo")
    lived_in.say("push van to friday")
    before = dump(lived_in)
    assert lived_in.hear_tap(data).text.startswith("That has been changed since, so it stays: Task 4 for today")
    assert dump(lived_in) == before


def test_with_nothing_done_there_is_nothing_to_take_back(stage: Stage) -> None:
    assert stage.say("undo").text == "There is nothing to take back."


def test_undo_never_takes_back_what_a_round_did(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.at("2026-03-03 06:30")
    assert stage.say("undo").text.startswith("A new day has carried that on, so it stays: Task 1 for today: order spokes")


def test_undo_is_not_stuck_at_what_a_new_day_carried_on(stage: Stage) -> None:
    stage.say("3h workshop")
    stage.say("task call doctor")
    stage.say("task order spokes")
    stage.at("2026-03-03 06:30")
    answer = stage.say("undo")
    assert answer.lines[0] == "A new day has carried that on, so it stays: Task 2 for today: order spokes."
    assert answer.lines[1] == "Done before that: “Workshop, Mon 2 Mar: 3 h”"
    assert stage.tap("Take that back").lines == ["Taken back: “Workshop, Mon 2 Mar: 3 h”"]
    assert len(stage.say("undo").lines) == 1


def test_redo_brings_back_what_was_taken_back_last(lived_in: Stage) -> None:
    lived_in.say("1h family")
    after = dump(lived_in)
    lived_in.tap("Undo")
    assert lived_in.tap("Undo").text.startswith("Done again")
    assert dump(lived_in) == after
    assert lived_in.tap("Undo").text.startswith("Taken back")


def test_a_question_whose_message_was_edited_since_is_no_longer_of_use(stage: Stage) -> None:
    stage.say("yesterday 26h workshop")
    data = stage.button("Log it anyway")
    stage.edit("yesterday 2h workshop")
    assert stage.hear_tap(data).text == "That button is no longer of use. Nothing changed."
    assert stage.look(lambda desk: [each.minutes for each in desk.stints.all()]) == [120]


def test_a_chain_of_edits_leaves_only_the_last(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("task call the glazier")
    stage.say("done 1")
    for text in ("done 2", "drop 1", "push 1 to friday"):
        stage.edit(text)
    found = stage.look(lambda desk: [(each.title, each.state.value, each.day.isoformat()) for each in desk.tasks.all()])
    assert found == [("order spokes", "open", "2026-03-06"), ("call the glazier", "open", "2026-03-02")]


def test_undo_after_hours_that_were_only_asked_about_takes_nothing_back_without_a_tap(stage: Stage) -> None:
    stage.say("museum 22-6 yesterday")
    assert "Nothing is logged yet" in stage.say("yesterday 23-1 museum").text
    asked = stage.say("undo")
    assert asked.text == "Nothing was logged, so there is nothing to take back. Done before that: “Museum, Sun 1 Mar, 22:00–06:00: 8 h”"
    assert stage.look(lambda desk: [each.minutes for each in desk.stints.all()]) == [480]
    stage.tap("Take that back")
    assert stage.look(lambda desk: desk.stints.all()) == ()
    stage.say("museum 13-14 yesterday")
    assert stage.say("undo").text.startswith("Taken back")


@pytest.mark.parametrize("first", ["3hh wrkshp?", "today", "done 9"])
def test_a_message_that_did_nothing_edited_to_undo_asks_before_it_takes_back_what_came_before(stage: Stage, first: str) -> None:
    stage.say("yesterday 2h museum")
    stage.say(first)
    before = dump(stage)
    asked = stage.edit("undo")
    assert asked.text == "That message changed nothing, so there is nothing of it to take back. Done last: “Museum, Sun 1 Mar: 2 h”"
    assert dump(stage) == before
    assert stage.tap("Take that back").text == "Taken back: “Museum, Sun 1 Mar: 2 h”"


def test_a_message_that_did_nothing_edited_to_redo_asks_before_it_does_anything_again(stage: Stage) -> None:
    stage.say("yesterday 2h museum")
    stage.say("undo")
    stage.say("what a day")
    before = dump(stage)
    asked = stage.edit("redo")
    assert asked.text == "That message changed nothing, so there is nothing of it to do again. Taken back last: “Museum, Sun 1 Mar: 2 h”"
    assert dump(stage) == before
    assert stage.tap("Do that again").text == "Done again: “Museum, Sun 1 Mar: 2 h”"


def test_a_message_taken_back_already_and_edited_to_undo_takes_back_nothing_else(stage: Stage) -> None:
    stage.say("yesterday 2h museum")
    stage.say("1h family")
    stage.tap("Undo")
    before = dump(stage)
    assert stage.edit("undo").text == "That was taken back already. Nothing changed."
    assert dump(stage) == before


def test_a_message_edited_to_undo_with_nothing_done_before_says_so(stage: Stage) -> None:
    stage.say("what a day")
    assert stage.edit("undo").text == "There is nothing to take back."


def test_two_undos_of_one_message_take_two_things_back(stage: Stage) -> None:
    stage.say("2h workshop")
    stage.say("task oil the chains")
    stage.say("undo\nundo")
    assert stage.look(lambda desk: (len(desk.stints.all()), len(desk.tasks.all()))) == (0, 0)


def test_taking_back_a_correction_says_what_stands_now(stage: Stage) -> None:
    for said in ("1h30 workshop", "no, 1h15", "make it family"):
        stage.say(said)
    assert stage.say("undo").lines[1:] == ["Back to: Workshop, Mon 2 Mar: 1 h 15"]
    assert stage.say("undo").lines[1:] == ["Back to: Workshop, Mon 2 Mar: 1 h 30"]
    assert len(stage.say("undo").lines) == 1
