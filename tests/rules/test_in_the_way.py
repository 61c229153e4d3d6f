"""Commitments that took planned hours."""

from __future__ import annotations

from dataclasses import replace

from bot.rules.in_the_way import InTheWay, contested, in_the_way
from storage.records import Block
from tests.rules.made import MONDAY, occurrence, stint, wall

LEARNING, HOME = 3, 5
NOW = wall("2026-03-08 18:00")


def block(start: str, end: str, *, category_id: int | None = LEARNING, task_id: int | None = None) -> Block:
    return Block(0, MONDAY, wall(start), wall(end), "reading", category_id, task_id, accepted=True)


READING = block("2026-03-02 09:00", "2026-03-02 11:00")
PLUMBER = occurrence("2026-03-02 10:30", "2026-03-02 12:00")


def test_a_commitment_over_planned_hours_that_nobody_spent_was_in_the_way() -> None:
    assert in_the_way([READING], [PLUMBER], [], set(), NOW) == (InTheWay("Commitment 1", ("reading",), 30),)


def test_hours_that_were_spent_in_spite_of_it_were_not_taken() -> None:
    assert in_the_way([READING], [PLUMBER], [stint(LEARNING, MONDAY, 40)], set(), NOW) == ()
    assert in_the_way([READING], [PLUMBER], [stint(LEARNING, MONDAY, 40, "2026-03-02 09:00")], set(), NOW) == ()
    assert in_the_way([READING], [PLUMBER], [stint(HOME, MONDAY, 40)], set(), NOW) != ()


def test_only_accepted_blocks_count_and_only_once_they_are_over() -> None:
    assert in_the_way([replace(READING, accepted=False)], [PLUMBER], [], set(), NOW) == ()
    assert in_the_way([READING], [PLUMBER], [], set(), wall("2026-03-02 10:59")) == ()


def test_a_task_that_was_closed_all_the_same_lost_nothing() -> None:
    taken = block("2026-03-02 09:00", "2026-03-02 11:00", category_id=None, task_id=7)
    assert in_the_way([taken], [PLUMBER], [], {7}, NOW) == ()
    assert in_the_way([taken], [PLUMBER], [], set(), NOW) == (InTheWay("Commitment 1", ("reading",), 30),)


def test_what_touches_or_lasts_all_day_takes_nothing() -> None:
    after = occurrence("2026-03-02 11:00", "2026-03-02 12:00")
    all_day = replace(PLUMBER, commitment=replace(PLUMBER.commitment, all_day=True))
    for each in (after, all_day):
        assert contested([READING], [each]) == ()
        assert in_the_way([READING], [each], [], set(), NOW) == ()
    assert contested([READING], [PLUMBER]) == (READING,)


def test_what_took_most_comes_first_and_names_each_block_once() -> None:
    bank = occurrence("2026-03-02 09:00", "2026-03-02 10:30", id=2)
    again = replace(READING, id=2, starts=wall("2026-03-02 11:30"), ends=wall("2026-03-02 12:00"))
    assert in_the_way([READING, again], [PLUMBER, bank], [], set(), NOW) == (
        InTheWay("Commitment 2", ("reading",), 90),
        InTheWay("Commitment 1", ("reading",), 60),
    )
