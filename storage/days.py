"""Records that belong to local days, such as hours and tasks."""

from __future__ import annotations

from datetime import date
from typing import Any, ClassVar, Protocol, TypeVar

from sqlalchemy import Select

from storage.shelf import Making, Shelf


class OfDay(Protocol):
    """Anything that belongs to a local day."""

    @property
    def day(self) -> date:
        """The local day."""


R = TypeVar("R", bound=OfDay)
T = TypeVar("T", bound=OfDay)


class DayShelf(Shelf[R]):
    """A shelf of such records.

    One unit of work asks for a day, for the days around it and for its week: so
    whole weeks are read at once, and what was read of many days answers for fewer.
    """

    between_days: ClassVar[Select[*tuple[Any, ...]]]
    """Selects the person's rows from ``first`` to ``last``, the days in their order."""

    def on(self, day: date) -> tuple[R, ...]:
        """Those of the local day."""
        return self.between(day, day)

    def between(self, first: date, last: date) -> tuple[R, ...]:
        """Those of all local days from ``first`` to ``last``, both included."""
        return self._of_days(self._records, self.between_days, first, last)

    def _of_days(self, made: Making[T], statement: Select[*tuple[Any, ...]], first: date, last: date) -> tuple[T, ...]:
        """What is ``made`` of the rows that the statement selects from ``first`` to ``last``."""
        enough = (days for days in self._remembered_of(statement) if days[0] <= first and last <= days[1])
        start, end = next(enough, None) or _whole_weeks(first, last)
        found = self._known(made, statement, {"first": start, "last": end})
        return tuple(each for each in found if first <= each.day <= last)


def _whole_weeks(first: date, last: date) -> tuple[date, date]:
    """From a Monday to a Sunday, as far as there are days."""
    monday = date.fromordinal(first.toordinal() - first.weekday())
    sunday = date.fromordinal(min(last.toordinal() + 6 - last.weekday(), date.max.toordinal()))
    return monday, sunday
