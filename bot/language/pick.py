"""Which of several things a reply is about."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Pick:
    """Which tasks or goals: numbers of today's list, all (``goals``: all of the week's), words that name one, ids; empty: the only one."""

    numbers: tuple[int, ...] = ()
    all: bool = False
    words: str | None = None
    ids: tuple[int, ...] = ()
    goal_ids: tuple[int, ...] = ()
    goals: bool = False
