"""How long such tasks really take the person: learned from what was logged on them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from bot.actions.naming import category_names
from bot.actions.today import today
from bot.rules.estimates import done_by_category, done_of, learned_ratio
from storage.desk import Desk

LOOK_BACK = timedelta(days=365)
"""How far back estimates are learned from."""

WORTH_SAYING = 0.1
"""A ratio closer to 1 than this is used, but not spoken of."""


def ratios(desk: Desk, category_ids: Iterable[int | None]) -> dict[int | None, float]:
    """How many times their estimate the person usually needs for tasks of each category; 1 where nothing is known."""
    return {id: 1.0 if id is None else _ratio(desk, id) for id in set(category_ids)}


def _ratio(desk: Desk, category_id: int) -> float:
    def learned() -> float:
        first, last = today(desk) - LOOK_BACK, today(desk)
        return learned_ratio(done_of(desk.tasks.estimated_and_closed(first, last), desk.stints.work_between(first, last), category_id))

    return desk.remembered(("ratio", category_id), ("tasks", "stints"), learned)


def ratios_worth_saying(desk: Desk, category_ids: frozenset[int]) -> tuple[tuple[str, float], ...]:
    """Categories whose estimates are corrected by a tenth or more, with the ratio."""
    learned = ratios(desk, category_ids)
    names = category_names(desk)
    return tuple((names[id], learned[id]) for id in sorted(category_ids) if abs(learned[id] - 1) >= WORTH_SAYING)


def ratios_moved(desk: Desk, before: date, last: date) -> tuple[tuple[str, float, float], ...]:
    """The ratio at the end of ``before`` and of ``last``, by name, of each category that had a task done in between."""
    tasks = desk.tasks.estimated_and_closed(before - LOOK_BACK, last)
    ids = sorted({task.category_id for task in tasks if task.day > before and task.category_id is not None})
    if not ids:
        return ()
    work = desk.stints.work_between(before - LOOK_BACK, last)
    then = done_by_category([task for task in tasks if task.day <= before], [each for each in work if each.day <= before])
    now, names = done_by_category(tasks, work), category_names(desk)
    return tuple((names[id], learned_ratio(then.get(id, ())), learned_ratio(now.get(id, ()))) for id in ids)
