"""What is fixed changes one end, or begins so much later; hours told and talk stay what they are."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time

import pytest

from bot.language.context import Context
from bot.language.meaning import Move
from bot.language.understand import understand
from tests.language.person import at
from tests.language.test_ordinary_talk import LINES

FIXED = replace(at(), fixed=("choir", "guitar lesson", "museum shift"))
TODAY, THURSDAY = date(2026, 3, 3), date(2026, 3, 5)
STARTS = Move("museum", None, time(14), from_day=THURSDAY, keeps_end=True)


@pytest.mark.parametrize(
    "text",
    ["museum thursday from 14", "museum starts at 14 on thursday", "museum shift thursday starts at 14", "museum begins at 14:00 thursday"],
)
def test_a_new_start_keeps_the_end(text: str) -> None:
    assert understand(text, FIXED) == STARTS


@pytest.mark.parametrize("text", ["choir until 22:00 on thursday", "choir thursday until 22:00", "choir thursday ends at 22:00"])
def test_a_new_end_keeps_the_start(text: str) -> None:
    assert understand(text, FIXED) == Move("choir", None, end=time(22), from_day=THURSDAY)


def test_an_end_of_today_is_one_only_in_the_present_tense() -> None:
    assert understand("museum starts at 14 today", FIXED) == replace(STARTS, from_day=TODAY)
    assert not isinstance(understand("museum until 11 today", FIXED), Move)
    assert not isinstance(understand("museum from 9", FIXED), Move)


@pytest.mark.parametrize(("text", "by"), [("guitar 30 min later thursday", 30), ("guitar thursday 1h earlier", -60)])
def test_so_much_later_or_earlier_is_no_time_spent(text: str, by: int) -> None:
    assert understand(text, FIXED) == Move("guitar", None, from_day=THURSDAY, by=by)


@pytest.mark.parametrize("context", [FIXED, at()])
def test_nothing_that_is_talked_of_moves(context: Context) -> None:
    moved = [line for line in LINES if isinstance(understand(line, context), Move)]
    assert moved == []
