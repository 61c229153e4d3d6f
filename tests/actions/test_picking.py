"""Which tasks and goals are named."""

from __future__ import annotations

import pytest

from bot.actions.act import act
from bot.actions.matching import best_match
from bot.language.meaning import AddTask, Cancel, Close, Drop, Log, Move, Push, SaidStint, SetTarget, Undo
from bot.language.pick import Pick
from bot.voice.replies import Refusal, Reply, TasksChanged
from storage.desk import Desk
from tests.stage import Stage


def done(stage: Stage, meaning: object) -> Reply:
    """Acts on a meaning that no typed reply gives, such as a button's."""

    def doing(desk: Desk) -> Reply:
        reply = act(desk, meaning)  # type: ignore[arg-type]
        desk.journal.write("done", None)
        return reply

    found = stage.look(doing)
    assert isinstance(found, Reply)
    return found


def test_with_one_open_task_a_bare_verb_means_that_one(stage: Stage) -> None:
    stage.say("task order spokes")
    reply = done(stage, Close(Pick()))
    assert isinstance(reply, TasksChanged)
    assert [item.title for item in reply.items] == ["order spokes"]


def test_carrying_all_carries_the_goals_and_leaves_the_tasks(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("goal fix the tandem")
    reply = done(stage, Push(Pick(all=True, goals=True), "week"))
    assert isinstance(reply, TasksChanged)
    assert [item.title for item in reply.items] == ["fix the tandem"]


def test_with_several_open_tasks_a_bare_verb_names_them(stage: Stage) -> None:
    assert done(stage, Close(Pick())) == Refusal("no tasks open")
    stage.say("task order spokes")
    stage.say("task call the glazier")
    assert done(stage, Close(Pick())) == Refusal("no such task", "order spokes, call the glazier")


@pytest.mark.parametrize(("settled", "state"), [(Close, "closed"), (Drop, "dropped")])
def test_a_goal_that_is_settled_takes_the_task_of_its_title_along(stage: Stage, settled: type[Close] | type[Drop], state: str) -> None:
    stage.say("goal spring fair")
    stage.tap("Do it today")
    stage.say("push 1 to friday")
    goal_id = stage.look(lambda desk: desk.goals.all()[0].id)
    assert isinstance(goal_id, int)
    reply = done(stage, settled(Pick(goal_ids=(goal_id,))))
    assert isinstance(reply, TasksChanged)
    assert [task.title for task in reply.items[0].along] == ["spring fair"]
    assert stage.look(lambda desk: [task.state.value for task in desk.tasks.all()]) == [state]


@pytest.mark.parametrize(
    "meaning",
    [
        Close(Pick(ids=(99,))),
        Close(Pick(goal_ids=(99,))),
        Undo(99),
        Cancel(None, id=99),
        Move(None, None, id=99),
    ],
)
def test_a_button_that_names_what_is_not_there_is_of_no_use(stage: Stage, meaning: object) -> None:
    assert done(stage, meaning) == Refusal("button gone")


def test_a_button_for_a_goal_that_is_gone_is_of_no_use(stage: Stage) -> None:
    day = stage.now.date()
    assert done(stage, AddTask("read", day, goal_id=99)) == Refusal("button gone")


def test_an_unknown_category_is_named_with_those_that_are_known(stage: Stage) -> None:
    known = ("workshop", "museum", "learning", "family", "home")
    assert done(stage, Log((SaidStint("choir", stage.now.date(), 60),))) == Refusal("no such category", "choir", known)
    assert done(stage, SetTarget("workshop", 120, 60)) == Refusal("most below least")


def test_words_match_whole_words_first_then_parts_then_spelling() -> None:
    things = [("order new spokes", 1), ("order", 2), ("spokeshave", 3)]
    assert best_match("spokes", things) == 1
    assert best_match("shave", things) == 3
    assert best_match("ordr new spoks", things) == 1
    assert best_match("violin", things) is None
    assert best_match("violin", []) is None


def test_words_that_fit_several_open_things_ask_which(stage: Stage) -> None:
    stage.say("task fair posters friday")
    stage.say("task fair flags thursday")
    stage.say("month goal spring fair")
    assert stage.say("drop fair").labels == ["drop fair flags", "drop fair posters", "drop spring fair"]
    assert stage.tap("drop fair posters").text == "Dropped: fair posters."
    assert stage.say("drop spring fair").text == "Dropped: spring fair."
    assert stage.say("drop fair").text == "Dropped: fair flags."


def test_a_day_fits_a_task_and_the_month_fits_a_goal_of_it(stage: Stage) -> None:
    stage.say("task fair posters friday")
    stage.say("month goal spring fair")
    assert stage.say("push fair to saturday").text == "Pushed to Sat 7 Mar: fair posters."
    assert stage.say("move fair to next month").text == "Carried to next month's goals: spring fair."
    assert stage.say("undo").text.startswith("Taken back")


def test_of_several_it_is_todays_that_is_done(stage: Stage) -> None:
    stage.say("task fair posters")
    stage.say("task fair flags thursday")
    assert stage.say("done fair").text == "Closed: fair posters."
