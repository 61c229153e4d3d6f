"""How long such tasks really take the person: learned from what was logged on them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from bot.actions.naming import category_names
from bot.actions.today import today
from bot.rules.estimates import done_of, learned_ratio
from storage.desk import Desk

LOOK_BACK = timedelta(days=365)
"""How far back estimates are learned from."""

WORTH_SAYING = 0.1
"""A ratio closer to 1 than this is used, but not spoken of."""


def ratios(desk: Desk, category_ids: Iterable[int | None]) -> dict[int | None, float]:
    """How many times their estimate the person usually needs for tasks of each category; 1 where nothing is known."""
    wanted = set(category_ids)
    first, last = today(desk) - LOOK_BACK, today(desk)
    tasks, stints = desk.tasks.between(first, last), desk.stints.between(first, last)
    return {id: 1.0 if id is None else learned_ratio(done_of(tasks, stints, id)) for id in wanted}


def ratios_worth_saying(desk: Desk, category_ids: frozenset[int]) -> tuple[tuple[str, float], ...]:
    """Categories whose estimates are corrected by a tenth or more, with the ratio."""
    learned = ratios(desk, category_ids)
    names = category_names(desk)
    return tuple((names[id], learned[id]) for id in sorted(category_ids) if abs(learned[id] - 1) >= WORTH_SAYING)
