"""Hours by category over a span of days: spent, planned, wanted, usual and before."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from datetime import date

from bot.actions.agenda import agenda
from bot.actions.naming import category_names
from bot.actions.today import today
from bot.rules.hours import planned_by_category
from bot.rules.planned import Planned
from bot.rules.span_before import span_before
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice.replies import CategoryHours
from storage.desk import Desk
from storage.records import Block, Occurrence, Task

NOTHING: Mapping[int, int] = {}


def hours_between(
    desk: Desk,
    first: date,
    last: date,
    spent: Mapping[int, int],
    *,
    before: Mapping[int, int] | None = None,
    planned: Mapping[int, int] = NOTHING,
    usual: Mapping[int, int] | None = None,
) -> tuple[CategoryHours, ...]:
    """One entry a category that has hours, plans or, over a whole week, a target; in the person's order.

    All are minutes by category id: those ``spent`` and, to stand beside them, those ``planned``, ``before`` and ``usual``;
    None where there is nothing to compare with.
    """
    a_week = (last - first).days + 1 == DAYS_A_WEEK
    targets = {each.category_id: each for each in desk.targets.in_force(first)} if a_week else {}
    known: list[Collection[int]] = [spent, planned, targets, before or NOTHING, usual or NOTHING]
    rows = []
    for id, name in category_names(desk).items():
        if not any(id in each for each in known):
            continue
        target = targets.get(id)
        rows.append(
            CategoryHours(
                name,
                spent.get(id, 0),
                planned.get(id, 0),
                target.at_least_minutes if target else None,
                target.at_most_minutes if target else None,
                None if before is None else before.get(id, 0),
                None if usual is None else usual.get(id, 0),
            )
        )
    return tuple(rows)


def minutes_before(desk: Desk, first: date, last: date) -> tuple[tuple[date, date], Mapping[int, int]] | None:
    """The span that one from ``first`` to ``last`` is compared with, and its minutes by category id; None where it has none."""
    span = span_before(first, last, today(desk))
    minutes = desk.stints.minutes_by_category(*span) if span else NOTHING
    return (span, minutes) if span and minutes else None


def planned_minutes(occurrences: Iterable[Occurrence], blocks: Iterable[Block], tasks: Iterable[Task]) -> Mapping[int, int]:
    """Minutes, by category id, of commitments, of accepted blocks, and of estimated tasks that have no block."""
    accepted = [block for block in blocks if block.accepted]
    in_blocks = {block.task_id for block in accepted}
    fixed: list[Planned] = [each for each in occurrences if each.commitment.blocks_hours]
    return planned_by_category([*fixed, *accepted], [task for task in tasks if task.id not in in_blocks])


def planned_and_spent(desk: Desk, first: date, last: date) -> tuple[CategoryHours, ...]:
    """The hours of a span beside those that were planned for it."""
    plans = planned_minutes(agenda(desk, first, last), desk.blocks.between(first, last), desk.tasks.between(first, last))
    return hours_between(desk, first, last, desk.stints.minutes_by_category(first, last), planned=plans)
