"""Planned hours that nobody has logged yet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import datetime

from bot.rules.local_time import elapsed_minutes
from bot.rules.spans import Span, overlap
from storage.records import Occurrence, Stint


def unlogged(occurrences: Iterable[Occurrence], stints: Sequence[Stint], until: datetime) -> tuple[Occurrence, ...]:
    """The occurrences with a category, over by ``until``, that no stint of that category tells of; earliest first.

    A stint with times tells of what it shares time with. The minutes of the
    stints without times tell of the day's other occurrences in their order:
    any minutes count for the first, and what one leaves over counts for the
    next if it is at least half of it. Source: common practice, no source.
    """
    untimed: Counter[tuple[object, int]] = Counter()
    for stint in stints:
        if stint.starts is None or stint.ends is None:
            untimed[stint.day, stint.category_id] += stint.minutes
    left = dict(untimed)
    silent: list[Occurrence] = []
    for occurrence in sorted(occurrences, key=lambda each: (each.starts, each.ends)):
        category_id = occurrence.commitment.category_id
        if category_id is None or occurrence.ends > until or _told_by_times(occurrence, category_id, stints):
            continue
        key = (occurrence.day, category_id)
        planned = elapsed_minutes(occurrence.starts, occurrence.ends)
        minutes = left.get(key, 0)
        if minutes > 0 and (minutes == untimed[key] or 2 * minutes >= planned):
            left[key] = max(0, minutes - planned)
        else:
            silent.append(occurrence)
    return tuple(silent)


def _told_by_times(occurrence: Occurrence, category_id: int, stints: Iterable[Stint]) -> bool:
    return any(
        overlap(occurrence, Span(stint.starts, stint.ends))
        for stint in stints
        if stint.category_id == category_id and stint.starts is not None and stint.ends is not None
    )
