"""Which words may name a task, and what a push may be to."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from bot.language.meaning import Ask, Close, Drop, Push, Reopen, Unknown
from bot.language.pick import Pick
from bot.language.understand import understand
from tests.language.person import at

NO_TASKS = replace(at(), tasks=())


@pytest.mark.parametrize("text", ["closed glazier", "finished order spokes", "done the glazier", "dropped the spokes", "glazier is done"])
def test_a_story_about_an_open_task_is_an_order_and_without_such_a_task_it_is_a_story(text: str) -> None:
    assert isinstance(understand(text, at()), Close | Drop)
    assert isinstance(understand(text, NO_TASKS), Unknown)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("done piano lesson", Close(Pick(words="piano lesson"))),
        ("drop piano lesson", Drop(Pick(words="piano lesson"))),
        ("reopen piano lesson", Reopen(Pick(words="piano lesson"))),
        ("push piano lesson to friday", Push(Pick(words="piano lesson"), date(2026, 3, 6))),
    ],
)
def test_a_plain_order_may_name_what_is_not_on_the_list_of_today(text: str, meaning: object) -> None:
    assert understand(text, NO_TASKS) == meaning


def test_a_push_without_a_target_takes_words_of_an_open_task_only() -> None:
    assert understand("push spokes", at()) == Push(Pick(words="spokes"), date(2026, 3, 4))
    assert isinstance(understand("push piano", at()), Unknown)


def test_a_mistyped_word_still_fits_its_task() -> None:
    assert understand("finished galzier", at()) == Close(Pick(words="galzier"))


def test_a_number_and_a_day_or_three_numbers_is_asked_about_where_both_can_be() -> None:
    both = understand("push 1 to 3", at())
    assert both == Ask((Push(Pick(numbers=(1,)), date(2026, 3, 3)), Push(Pick(numbers=(1, 2, 3)), date(2026, 3, 4))))
    assert understand("push 1 to 15", at()) == Push(Pick(numbers=(1,)), date(2026, 3, 15))


def test_all_but_some_are_the_numbers_that_remain() -> None:
    assert understand("push all but 2", at()) == Push(Pick(numbers=(1, 3)), date(2026, 3, 4))
    assert understand("drop all except 1 and 2", at()) == Drop(Pick(numbers=(3,)))


def test_minutes_go_to_the_category_that_stands_behind_them() -> None:
    assert understand("closed 2 in 45m museum", at()) == Close(Pick(numbers=(2,)), 45, "museum")
    assert understand("2 done in 45m", at()) == Close(Pick(numbers=(2,)), 45)


@pytest.mark.parametrize("text", ["done 100", "done 0", "done 2.5", "done 1 blue", "push 2 to blue", "drop 1 or 2"])
def test_half_an_order_is_none(text: str) -> None:
    assert isinstance(understand(text, at()), Unknown)


def test_a_verb_alone_is_about_the_one_thing_that_is_open() -> None:
    assert understand("done", at()) == Close(Pick())
    assert understand("drop!", at()) == Drop(Pick())
    assert understand("push to friday", at()) == Push(Pick(), date(2026, 3, 6))


def test_all_that_is_carried_are_goals() -> None:
    assert understand("carry all", at()) == Push(Pick(all=True, goals=True), "week")
    assert understand("push all", at()) == Push(Pick(all=True), date(2026, 3, 4))


@pytest.mark.parametrize("text", ["met Ann friday 30m", "swam friday 1h", "tidied shelves friday 2h", "run friday 5k", "gym today 1h"])
def test_what_may_have_been_done_already_is_no_task_to_come(text: str) -> None:
    assert isinstance(understand(text, at()), Unknown)


@pytest.mark.parametrize(("text", "kind"), [("done homework", Close), ("homework done", Close), ("drop homework", Drop)])
def test_a_title_that_is_a_word_of_talk_is_known_where_there_is_such_a_task(text: str, kind: type[Close | Drop]) -> None:
    there = replace(at(), tasks=((1, "homework"), (2, "call the glazier")))
    assert understand(text, there) == kind(Pick(words="homework"))
    assert isinstance(understand(text, at()), Unknown)
    assert isinstance(understand("close call", there), Unknown)


def test_a_goal_of_the_week_is_known_by_a_word_of_talk_that_is_its_title() -> None:
    there = replace(at(), week_goals=("shopping",))
    assert understand("done shopping", there) == Close(Pick(words="shopping"))
    assert understand("drop shopping", there) == Drop(Pick(words="shopping"))
    assert isinstance(understand("drop shopping", at()), Unknown)
