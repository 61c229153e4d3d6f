"""What is fixed and given up, in other words than "cancel"."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from bot.language.context import Context
from bot.language.meaning import Cancel, Drop, Unknown
from bot.language.pick import Pick
from bot.language.understand import understand
from tests.language.person import at
from tests.language.test_ordinary_talk import LINES

FIXED = replace(at(), fixed=("choir", "guitar lesson", "museum shift"))
THURSDAY = date(2026, 3, 5)


@pytest.mark.parametrize(
    "text",
    [
        *(
            "skip choir thursday",
            "no choir on thursday",
            "no choir thursday",
            "I can't make choir on thursday",
            "not going to choir thursday",
        ),
        *("i'll miss choir thursday", "forget choir thursday", "drop choir on thursday", "can't make it to the choir thursday"),
    ],
)
def test_it_is_cancelled_on_its_day(text: str) -> None:
    assert understand(text, FIXED) == Cancel("choir", THURSDAY)
    assert not isinstance(understand(text, at()), Cancel)


def test_a_week_may_be_said_as_well_and_without_a_day_the_answer_asks() -> None:
    week = Cancel("choir", date(2026, 3, 2), last=date(2026, 3, 8))
    assert [understand(text, FIXED) for text in ("no choir this week", "skip choir this week")] == [week, week]
    assert understand("skip guitar", FIXED) == Cancel("guitar")


def test_an_open_task_of_that_name_is_dropped_instead() -> None:
    assert understand("skip glazier", replace(FIXED, fixed=("glazier visit",))) == Drop(Pick(words="glazier"))


def test_the_bare_no_needs_a_day_and_what_is_not_known_is_talk() -> None:
    assert isinstance(understand("no choir", FIXED), Unknown)
    assert isinstance(understand("no rain this week", FIXED), Unknown)


@pytest.mark.parametrize("line", [line for line in LINES if not {"choir", "museum", "guitar"} & set(line.lower().split())])
def test_talk_of_other_things_cancels_nothing(line: str) -> None:
    context: Context = FIXED
    assert not isinstance(understand(line, context), Cancel)


def test_what_is_cancelled_by_others_needs_no_day_where_it_is_known() -> None:
    assert understand("choir is cancelled", FIXED) == Cancel("choir")
    assert isinstance(understand("choir is cancelled", at()), Unknown)
