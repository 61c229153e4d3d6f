"""A reply to one of the bot's messages is about what that message was about."""

from __future__ import annotations

from bot.actions.aiming import aimed
from bot.language.meaning import Amend, Close, Push, Show, Undo
from bot.language.pick import Pick
from storage.desk import Desk
from tests.stage import Stage


def entry_of(stage: Stage, text: str) -> int:
    answers = stage.say(text).parcels[0].answers
    assert answers is not None
    return answers


def test_a_bare_verb_is_pointed_at_the_tasks_of_the_message(stage: Stage) -> None:
    entry = entry_of(stage, "task order spokes")

    def check(desk: Desk) -> None:
        assert aimed(desk, Close(Pick()), entry) == Close(Pick(ids=(1,)))
        assert aimed(desk, Push(Pick(), "week"), entry) == Push(Pick(ids=(1,)), "week")

    stage.look(check)


def test_a_bare_verb_is_pointed_at_the_goals_of_the_message(stage: Stage) -> None:
    entry = entry_of(stage, "goal finish chapter 4")
    stage.look(lambda desk: _equal(aimed(desk, Close(Pick()), entry), Close(Pick(goal_ids=(1,)))))


def test_corrections_and_undo_are_pointed_at_the_message(stage: Stage) -> None:
    entry = entry_of(stage, "2h workshop")
    stage.look(lambda desk: _equal(aimed(desk, Amend(minutes=60), entry), Amend(minutes=60, entry=entry)))
    stage.look(lambda desk: _equal(aimed(desk, Undo(), entry), Undo(entry)))


def test_what_names_something_itself_stays_as_it_is(stage: Stage) -> None:
    entry = entry_of(stage, "task order spokes")
    for meaning in (Close(Pick(numbers=(2,))), Undo(7), Show("week"), Close(Pick(all=True))):
        stage.look(lambda desk, given=meaning: _equal(aimed(desk, given, entry), given))  # type: ignore[misc]


def test_a_message_that_touched_nothing_gives_nothing_to_aim_at(stage: Stage) -> None:
    entry = entry_of(stage, "today")
    stage.look(lambda desk: _equal(aimed(desk, Close(Pick()), entry), Close(Pick())))
    stage.look(lambda desk: _equal(aimed(desk, Close(Pick()), None), Close(Pick())))


def _equal(found: object, wanted: object) -> None:
    assert found == wanted


def test_numbers_go_by_the_recap_until_a_list_of_tasks_is_shown(stage: Stage) -> None:
    stage.say("task call the glazier")
    stage.say("goal finish chapter 4")
    stage.say("goal paint the shed")
    stage.say("recap")
    assert stage.say("done 1").lines[0] == "Met: finish chapter 4."
    assert stage.say("drop 2").lines[0] == "Dropped: paint the shed."
    stage.say("tasks")
    assert stage.say("done 1").lines[0] == "Closed: call the glazier."


def test_a_number_that_a_recap_does_not_have_is_a_task_and_so_is_one_that_goes_to_a_day(stage: Stage) -> None:
    stage.say("task call the glazier")
    stage.say("task order spokes")
    stage.say("goal finish chapter 4")
    stage.say("recap")
    assert stage.say("push 1 to friday").lines[0] == "Pushed to Fri 6 Mar: call the glazier."
    assert stage.say("done 2").lines[0] == "Closed: order spokes."
