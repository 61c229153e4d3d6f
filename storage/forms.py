"""How a record becomes a row and back: the fields of the one are the columns of the other."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import fields
from operator import attrgetter
from typing import Any, Generic, TypeVar

from sqlalchemy import ColumnElement, Select, Table, bindparam, select
from sqlalchemy.types import TypeEngine

from storage.records import (
    Block,
    Calendar,
    Category,
    Commitment,
    Entry,
    Goal,
    HandedIn,
    Job,
    JobRate,
    KeptEvent,
    Marking,
    Parcel,
    Person,
    Round,
    Routine,
    Running,
    Section,
    SickDay,
    Stint,
    Target,
    Task,
)
from storage.schema import (
    blocks,
    calendar_events,
    calendars,
    categories,
    commitments,
    goals,
    handed_in,
    job_rates,
    jobs,
    journal_entries,
    marks,
    parcels,
    people,
    rounds,
    routines,
    running,
    sections,
    sick_days,
    stints,
    targets,
    tasks,
)
from storage.types import Kept, Raw, RawRow, Row

R = TypeVar("R")


class Form(Generic[R]):
    """The statements and the mapping of one table whose rows are records of one kind.

    Statements made by ``mine`` are bound to one person: they must be given
    ``person_id``, and see no row of anyone else.
    """

    def __init__(self, record: Callable[..., R], table: Table) -> None:
        self.table = table
        # A plain text: of SQLAlchemy's own kind of text the driver asks each time whether it is to be adapted.
        self.name = str(table.name)
        self._record = record
        self.fields = tuple(field.name for field in fields(record))  # type: ignore[arg-type]
        self._values: Callable[[R], tuple[Any, ...]] = attrgetter(*self.fields)
        self._place_of_id = self.fields.index("id")
        self._keepers = tuple((name, _keeper(table.c[name].type)) for name in self.fields)
        self._owner = table.c.get("person_id", table.c.id)
        self.one = self.mine(table.c.id == bindparam("id"))
        self.every = self.mine()

    def mine(self, *conditions: ColumnElement[bool], order: Sequence[ColumnElement[Any]] = ()) -> Select[*tuple[Any, ...]]:
        """Selects the person's rows that meet all conditions, in the given order and then by id."""
        return self.anyones(self._owner == bindparam("person_id"), *conditions).order_by(*order, self.table.c.id)

    def anyones(self, *conditions: ColumnElement[bool]) -> Select[*tuple[Any, ...]]:
        """Selects rows whoever they belong to: for what serves all people, such as the postman."""
        return select(*(self.table.c[name] for name in self.fields)).where(*conditions)

    def record(self, row: Row) -> R:
        """The record of a row that one of these statements gave."""
        return self._record(*row)

    def raw(self, record: R) -> RawRow:
        """The record as the database holds it: text, numbers, bytes and None. Raises Unkeepable."""
        pairs = zip(self._keepers, self._values(record), strict=True)
        return {name: value if keep is None or value is None else keep(value) for (name, keep), value in pairs}

    def id_of(self, record: R) -> int:
        """The record's id, 0 when it is not kept yet."""
        id: int = getattr(record, "id")  # noqa: B009
        return id

    def with_id(self, record: R, id: int) -> R:
        """The same record with this id."""
        values = list(self._values(record))
        values[self._place_of_id] = id
        return self._record(*values)

    def values(self, record: R) -> dict[str, Any]:
        """The record's values by column, without its id: for a typed insert into a table that numbers its rows itself."""
        values = dict(zip(self.fields, self._values(record), strict=True))
        del values["id"]
        return values


def _keeper(type_: TypeEngine[Any]) -> Callable[[Any], Raw] | None:
    """What turns a value of a column of this type into its raw form; None where they are the same."""
    return type_.keep if isinstance(type_, Kept) else None


PEOPLE = Form(Person, people)
SECTIONS = Form(Section, sections)
CATEGORIES = Form(Category, categories)
JOBS = Form(Job, jobs)
JOB_RATES = Form(JobRate, job_rates)
HANDED_IN = Form(HandedIn, handed_in)
COMMITMENTS = Form(Commitment, commitments)
ROUTINES = Form(Routine, routines)
GOALS = Form(Goal, goals)
TASKS = Form(Task, tasks)
TARGETS = Form(Target, targets)
BLOCKS = Form(Block, blocks)
STINTS = Form(Stint, stints)
SICK_DAYS = Form(SickDay, sick_days)
RUNNING = Form(Running, running)
CALENDARS = Form(Calendar, calendars)
CALENDAR_EVENTS = Form(KeptEvent, calendar_events)
MARKS = Form(Marking, marks)
ENTRIES = Form(Entry, journal_entries)
PARCELS = Form(Parcel, parcels)
ROUNDS = Form(Round, rounds)
