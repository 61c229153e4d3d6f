"""Tasks, each meant for a day."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Text, bindparam, case, func, literal, literal_column, select, type_coerce

from storage.days import DayShelf
from storage.forms import TASKS
from storage.records import Task
from storage.schema import tasks

_ON_DAY = tasks.c.day == bindparam("day")
# A literal, because SQLite takes a partial index for a literal only.
_OPEN = TASKS.mine(tasks.c.state == literal_column("'open'"), order=(tasks.c.day, tasks.c.number))
_FOR_GOAL = TASKS.mine(tasks.c.goal_id == bindparam("goal_id"), order=(tasks.c.day, tasks.c.number))
_SETTLED = TASKS.mine(tasks.c.settled.between(bindparam("first"), bindparam("last")), order=(tasks.c.settled, tasks.c.number))
# Whoever was pushed from a day lies on a later one now.
_PUSHED = TASKS.mine(tasks.c.day > bindparam("first"), type_coerce(tasks.c.pushes, Text) != "[]", order=(tasks.c.day, tasks.c.number))
_DONE = TASKS.mine(
    tasks.c.day.between(bindparam("first"), bindparam("last")),
    # A literal, too: where a value may decide whether a partial index serves, each new value has the statement prepared anew
    # (sqlite.org/c3ref/prepare.html).
    tasks.c.state == literal_column("'closed'"),
    tasks.c.estimate_minutes > 0,
    order=(tasks.c.day, tasks.c.number),
)

# A task that was pushed on took its number of that day with it, and undoing the push brings the number back.
# So it counts as given: as many numbers are gone as tasks are, or were, on the day.
_PUSHED_FROM = type_coerce(tasks.c.pushes, Text).contains(bindparam("day_text", type_=Text()))
_NUMBERS_GIVEN = select(
    func.max(case((_ON_DAY, tasks.c.number), else_=literal(0))),
    func.count(),
).where(tasks.c.person_id == bindparam("person_id"), _ON_DAY | ((tasks.c.day > bindparam("day")) & _PUSHED_FROM))


class Tasks(DayShelf[Task]):
    """The person's tasks. Days are local; a day's tasks come in the order of their numbers."""

    between_days = TASKS.mine(tasks.c.day.between(bindparam("first"), bindparam("last")), order=(tasks.c.day, tasks.c.number))

    def open(self) -> tuple[Task, ...]:
        """All open tasks, earliest day first. They are few, and a day asks for them from all sides."""
        return self.many(_OPEN)

    def open_on(self, day: date) -> tuple[Task, ...]:
        """The open tasks of the day."""
        return self.open_between(day, day)

    def open_between(self, first: date, last: date) -> tuple[Task, ...]:
        """The open tasks of the days from ``first`` to ``last``, both included."""
        return tuple(task for task in self.open() if first <= task.day <= last)

    def open_before(self, day: date) -> tuple[Task, ...]:
        """Open tasks of earlier days, oldest day first."""
        return tuple(task for task in self.open() if task.day < day)

    def open_after(self, day: date) -> tuple[Task, ...]:
        """Open tasks of later days, nearest day first."""
        return tuple(task for task in self.open() if task.day > day)

    def settled_between(self, first: date, last: date) -> tuple[Task, ...]:
        """Those closed or dropped on a day from ``first`` to ``last``, both included, in the order of these days."""
        return self.many(_SETTLED, first=first, last=last)

    def pushed_between(self, first: date, last: date) -> tuple[Task, ...]:
        """Those pushed from a day from ``first`` to ``last``, both included, each once, whatever became of them."""
        return tuple(task for task in self.many(_PUSHED, first=first) if any(first <= day <= last for day in task.pushes))

    def estimated_and_closed(self, first: date, last: date) -> tuple[Task, ...]:
        """The closed tasks of these days that had an estimate."""
        return self.many(_DONE, first=first, last=last)

    def for_goal(self, goal_id: int) -> tuple[Task, ...]:
        """All tasks that serve the goal, earliest day first."""
        return self.many(_FOR_GOAL, goal_id=goal_id)

    def next_number(self, day: date) -> int:
        """The number for the next task of the day: above every number there, and none that a pushed task may bring back."""
        given = {"person_id": self._person_id, "day": day, "day_text": f'"{day.isoformat()}"'}
        ((highest, count),) = self._connection.execute(_NUMBERS_GIVEN, given)
        return max(int(highest or 0), int(count)) + 1
