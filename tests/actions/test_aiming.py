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
