"""Ordinary talk records nothing: no hours, and no task closed, dropped or pushed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bot.language.context import Context
from bot.language.meaning import Ask, Close, Drop, Log, Meaning, Push, Several
from bot.language.understand import understand
from tests.language.person import at, clocked_in, planning

LINES = [
    line
    for line in (Path(__file__).parent / "ordinary_talk.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]
LEAST_LINES = 400
MOMENTS = {
    "at noon": at(),
    "with no tasks": replace(at(), tasks=()),
    "in the evening": at("2026-03-03T20:30"),
    "before dawn": at("2026-03-03T04:10"),
    "with the clock running": clocked_in(),
    "within a plan": planning(("museum", "11:00", "13:00")),
    "with routines": replace(at(), routines=("exercise", "quiet time", "cleaning")),
    "within a task's block": replace(
        at(), blocks=(replace(planning(("learning", "11:00", "13:00")).planned[0], title="essay", task_id=7),)
    ),
}


def _acts(meaning: Meaning) -> bool:
    if isinstance(meaning, Several):
        return any(_acts(part) for part in meaning.parts)
    if isinstance(meaning, Ask):
        return any(_acts(choice) for choice in meaning.choices)
    return isinstance(meaning, Log | Close | Drop | Push)


def test_there_is_enough_talk_to_tell() -> None:
    assert len(set(LINES)) >= LEAST_LINES


@pytest.mark.parametrize("moment", MOMENTS)
def test_no_line_of_talk_logs_closes_drops_or_pushes_anything(moment: str) -> None:
    context: Context = MOMENTS[moment]
    acted = {line: meaning for line in LINES if _acts(meaning := understand(line, context))}
    assert acted == {}
