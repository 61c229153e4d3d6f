"""Hours by category over a span of days: spent, planned, wanted."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from bot.actions.agenda import agenda
from bot.actions.naming import category_names
from bot.rules.hours import planned_by_category, spent_by_category
from bot.rules.planned import Planned
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice.replies import CategoryHours
from storage.desk import Desk


def hours_between(
    desk: Desk, first: date, last: date, *, before: tuple[date, date] | None = None, planned: bool = False
) -> tuple[CategoryHours, ...]:
    """One entry a category that has hours, plans or, over a whole week, a target; in the person's order.

    ``before`` is an earlier span to compare with. ``planned`` counts commitments and estimated tasks.
    """
    spent = spent_by_category(desk.stints.between(first, last))
    earlier = spent_by_category(desk.stints.between(*before)) if before else {}
    plans = _planned(desk, first, last) if planned else {}
    a_week = (last - first).days + 1 == DAYS_A_WEEK
    targets = {each.category_id: each for each in desk.targets.in_force(first)} if a_week else {}
    rows = []
    for id, name in category_names(desk).items():
        if not (id in spent or id in earlier or id in plans or id in targets):
            continue
        target = targets.get(id)
        rows.append(
            CategoryHours(
                name,
                spent.get(id, 0),
                plans.get(id, 0),
                target.at_least_minutes if target else None,
                target.at_most_minutes if target else None,
                earlier.get(id, 0) if before else None,
            )
        )
    return tuple(rows)


def _planned(desk: Desk, first: date, last: date) -> Mapping[int, int]:
    """Minutes of commitments, of accepted blocks, and of estimated tasks that have no block."""
    blocks = [block for block in desk.blocks.between(first, last) if block.accepted]
    in_blocks = {block.task_id for block in blocks}
    tasks = [task for task in desk.tasks.between(first, last) if task.id not in in_blocks]
    fixed: list[Planned] = [each for each in agenda(desk, first, last) if each.commitment.blocks_hours]
    return planned_by_category([*fixed, *blocks], tasks)
