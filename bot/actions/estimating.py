"""How long such tasks really take the person: learned from what was logged on them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from bot.actions.naming import category_name, category_names
from bot.actions.today import today
from bot.rules.estimates import done_of, learned_ratio
from storage.desk import Desk

LOOK_BACK = timedelta(days=365)
"""How far back estimates are learned from."""

WORTH_SAYING = 0.1
"""A ratio closer to 1 than this is used, but not spoken of."""


def ratio_for(desk: Desk, category_id: int | None) -> float:
    """How many times their estimate the person usually needs for tasks of a category; 1 where nothing is known."""
    return 1.0 if category_id is None else ratios_by(desk, today(desk), (category_id,))[category_id]


def ratios_by(desk: Desk, last: date, category_ids: Iterable[int]) -> dict[int, float]:
    """The same of several categories, as it was known at the end of ``last``."""
    first = last - LOOK_BACK
    tasks, stints = desk.tasks.estimated_and_closed(first, last), desk.stints.on_tasks_between(first, last)
    return {id: learned_ratio(done_of(tasks, stints, id)) for id in category_ids}


def ratios_worth_saying(desk: Desk, category_ids: frozenset[int]) -> tuple[tuple[str, float], ...]:
    """Categories whose estimates are corrected by a tenth or more, with the ratio."""
    ratios = ((category_name(desk, id) or "", ratio_for(desk, id)) for id in sorted(category_ids))
    return tuple((name, ratio) for name, ratio in ratios if abs(ratio - 1) >= WORTH_SAYING)


def ratios_moved(desk: Desk, before: date, last: date) -> tuple[tuple[str, float, float], ...]:
    """The ratio at the end of ``before`` and of ``last``, by name, of each category that had a task done in between."""
    done = desk.tasks.estimated_and_closed(before + timedelta(days=1), last)
    ids = sorted({task.category_id for task in done if task.category_id is not None})
    if not ids:
        return ()
    names, then, now = category_names(desk), ratios_by(desk, before, ids), ratios_by(desk, last, ids)
    return tuple((names[id], then[id], now[id]) for id in ids)
