"""Planned hours that nobody has logged yet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import TypeVar

from bot.rules.local_time import elapsed_minutes
from bot.rules.planned import Planned
from bot.rules.spans import Span, overlap
from storage.records import Stint

P = TypeVar("P", bound=Planned)


def unlogged(planned: Iterable[P], stints: Sequence[Stint], until: datetime) -> tuple[P, ...]:
    """The planned hours with a category, over by ``until``, that no stint of that category tells of; earliest first.

    A stint with times tells of what it shares time with, and one without them
    that has a title for a note of what is called so, of whatever category. The minutes of the other
    stints without times tell of the day's other planned hours in their order:
    any minutes count for the first, and what one leaves over counts for the
    next if it is at least half of it. Source: common practice, no source.
    """
    earliest_first = sorted(planned, key=lambda one: (one.starts, one.ends))
    titles = {(each.day, each.title.lower()): each.category_id for each in earliest_first}
    named: set[tuple[object, str]] = set()
    untimed: Counter[tuple[object, int]] = Counter()
    for stint in stints:
        of_title = (stint.day, (stint.note or "").lower())
        if of_title in titles:
            named.add(of_title)
        if titles.get(of_title) != stint.category_id and (stint.starts is None or stint.ends is None):
            untimed[stint.day, stint.category_id] += stint.minutes
    left = dict(untimed)
    silent: list[P] = []
    for each in earliest_first:
        if each.category_id is None or each.ends > until or _told_by_times(each, each.category_id, stints):
            continue
        if (each.day, each.title.lower()) in named:
            continue
        key = (each.day, each.category_id)
        length = elapsed_minutes(each.starts, each.ends)
        minutes = left.get(key, 0)
        if minutes > 0 and (minutes == untimed[key] or 2 * minutes >= length):
            left[key] = max(0, minutes - length)
        else:
            silent.append(each)
    return tuple(silent)


def _told_by_times(planned: Planned, category_id: int, stints: Iterable[Stint]) -> bool:
    return any(
        overlap(planned, Span(stint.starts, stint.ends))
        for stint in stints
        if stint.category_id == category_id and stint.starts is not None and stint.ends is not None
    )
