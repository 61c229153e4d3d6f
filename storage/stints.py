"""Stints: hours really spent, and the one that runs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime

from sqlalchemy import bindparam, func, literal_column, select

from storage.connections import Found
from storage.days import DayShelf
from storage.forms import STINTS
from storage.records import Running, Stint, Work
from storage.schema import categories, stints
from storage.shelf import Shelf

_IN_ORDER = (stints.c.day, stints.c.starts.nulls_first())
_IN_DAYS = stints.c.day.between(bindparam("first"), bindparam("last"))
_FOR_CATEGORY = STINTS.mine(stints.c.category_id == bindparam("category_id"), _IN_DAYS, order=_IN_ORDER)
_OVERLAPPING = STINTS.mine(stints.c.starts < bindparam("ends"), stints.c.ends > bindparam("starts"), order=_IN_ORDER)
_WORK = (
    select(stints.c.day, stints.c.minutes, stints.c.task_ids)
    .where(stints.c.person_id == bindparam("person_id"), _IN_DAYS, literal_column("task_ids <> '[]'"))
    .order_by(stints.c.day)
)
_SUMS = select(
    categories.c.id,
    select(func.sum(stints.c.minutes))
    .where(stints.c.person_id == bindparam("person_id"), stints.c.category_id == categories.c.id, _IN_DAYS)
    .scalar_subquery(),
).where(categories.c.person_id == bindparam("person_id"))
_OF_DAYS = (
    select(stints.c.day, func.sum(stints.c.minutes))
    .where(stints.c.person_id == bindparam("person_id"), _IN_DAYS)
    .group_by(stints.c.day)
    .order_by(stints.c.day)
)
_FIRST_DAY = select(func.min(stints.c.day)).where(stints.c.person_id == bindparam("person_id"))
_BY_DAY = (
    select(stints.c.day, func.sum(stints.c.minutes))
    .where(stints.c.person_id == bindparam("person_id"), stints.c.category_id == bindparam("category_id"), _IN_DAYS)
    .group_by(stints.c.day)
)
_LATEST = STINTS.mine(order=(stints.c.id.desc(),)).limit(1)


class Stints(DayShelf[Stint]):
    """The person's stints, by day; within a day those without a start first, then by start."""

    between_days = STINTS.mine(_IN_DAYS, order=_IN_ORDER)

    def for_category_between(self, category_id: int, first: date, last: date) -> tuple[Stint, ...]:
        """Those of one category, both days included."""
        return self.many(_FOR_CATEGORY, category_id=category_id, first=first, last=last)

    def minutes_by_day(self, category_id: int, first: date, last: date) -> dict[date, int]:
        """The minutes of one category on each day that has some, both days included."""
        given = {"person_id": self._person_id, "category_id": category_id, "first": first, "last": last}
        return dict(tuple(row) for row in self._connection.execute(_BY_DAY, given))

    def overlapping(self, starts: datetime, ends: datetime) -> tuple[Stint, ...]:
        """Those whose own start and end share a moment with [starts, ends); stints without them share none."""
        return self.many(_OVERLAPPING, starts=starts, ends=ends)

    def work_between(self, first: date, last: date) -> tuple[Work, ...]:
        """What those of these days that name tasks say of them, in order of the days."""
        return self._of_days(_works, _WORK, first, last)

    def minutes_by_category(self, first: date, last: date) -> Mapping[int, int]:
        """Net minutes of all local days from ``first`` to ``last`` by category id, added up by the database; none without stints."""
        found = self._connection.execute(_SUMS, {"person_id": self._person_id, "first": first, "last": last})
        return {id: minutes for id, minutes in found if minutes is not None}

    def minutes_of_days(self, first: date, last: date) -> Mapping[date, int]:
        """The same of all categories by local day; none for a day without stints."""
        found = self._connection.execute(_OF_DAYS, {"person_id": self._person_id, "first": first, "last": last})
        return {row[0]: row[1] for row in found}

    def first_day(self) -> date | None:
        """The earliest local day that has hours, or None."""
        day: date | None = self._connection.execute(_FIRST_DAY, {"person_id": self._person_id}).scalar()
        return day

    def latest(self) -> Stint | None:
        """The one that was noted last, or None."""
        return self.first(_LATEST)


def _works(found: Found) -> Iterator[Work]:
    return (Work(*row) for row in found.rows)


class Clock(Shelf[Running]):
    """The stint that the person clocked in to, at most one."""

    def current(self) -> Running | None:
        """The one that runs, or None."""
        return self.first(self.form.every)
