"""Which of several things a reply is about."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Pick:
    """Which tasks or goals: numbers of today's list, all, words that name one, ids; empty: the only one.

    With ``goals`` all are the week's goals, and the words name a goal.
    """

    numbers: tuple[int, ...] = ()
    all: bool = False
    words: str | None = None
    ids: tuple[int, ...] = ()
    goal_ids: tuple[int, ...] = ()
    goals: bool = False
