"""What a week usually holds: the mean of the weeks before it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import Final

from bot.rules.weeks import DAYS_A_WEEK, first_of_week
from storage.records import Weekday

WEEKS: Final = 4
"""So many weeks make the mean. Source: common practice, no source."""

FEWEST: Final = 3
"""Of fewer weeks nothing is called usual: one or two tell of themselves. Source: common practice, no source."""


def began_on(first_hours: date | None, joined: date) -> date | None:
    """The day from which hours tell what is usual: not before the person joined, for hours told of earlier days are seldom all there were.

    None while there are no hours.
    """
    return None if first_hours is None else max(first_hours, joined)


def weeks_before(week: date, began: date | None, week_starts: Weekday) -> tuple[date, ...]:
    """The first days of the weeks that the mean of ``week`` is over, the latest first.

    They are the four weeks before, without those that ended before the person
    began: ``began`` is the day of ``began_on``, and weeks before its week do
    not count. A later week without any hours counts as nothing.
    """
    since = None if began is None else first_of_week(began, week_starts)
    earlier = [week - timedelta(days=DAYS_A_WEEK * number) for number in range(1, WEEKS + 1)]
    return tuple(each for each in earlier if since is not None and each >= since)


def mean_by_category(weeks: Sequence[Mapping[int, int]]) -> Mapping[int, int]:
    """Mean minutes by category id, to the nearest minute and halves up; empty where there are no weeks."""
    ids = {id for week in weeks for id in week}
    return {id: mean_of([week.get(id, 0) for week in weeks]) for id in sorted(ids)}


def mean_of(minutes: Sequence[int]) -> int:
    """Their mean, to the nearest minute and halves up. At least one must be given."""
    return (2 * sum(minutes) + len(minutes)) // (2 * len(minutes))
