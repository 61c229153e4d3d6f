"""The desk: one unit of work for one person.

All that is read and changed here is the person's own, in one transaction.
Changes on the shelves must be told by ``journal.write`` before the desk is
left; parcels, taps, rounds, silences, visits to calendars, told weather, waiting files and handled keys are
not journalled.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator
from contextlib import contextmanager
from datetime import datetime
from functools import cached_property
from typing import Any, TypeVar

from storage.almanac import Holidays
from storage.blocks import Blocks
from storage.calendars import CalendarEvents, Visits
from storage.categories import Categories, Sections
from storage.commitments import Commitments
from storage.connections import Connection
from storage.everything import Leaving, TableRows, rows_of
from storage.files import SentFiles
from storage.forecasts import DeskForecasts
from storage.forms import (
    BLOCKS,
    CALENDAR_EVENTS,
    CALENDARS,
    CATEGORIES,
    COMMITMENTS,
    GOALS,
    HANDED_IN,
    JOB_RATES,
    JOBS,
    MARKS,
    PEOPLE,
    ROUTINES,
    RUNNING,
    SECTIONS,
    SICK_DAYS,
    STINTS,
    TARGETS,
    TASKS,
    Form,
)
from storage.goals import Goals
from storage.handled import Handled
from storage.journal import Journal
from storage.outbox import Outbox
from storage.pay import HandedInPeriods, JobRates, Jobs
from storage.people import Self
from storage.records import Calendar, Marking, Person, Routine
from storage.rounds import Rounds
from storage.shelf import Shelf
from storage.sick_days import SickDays
from storage.silences import Silences
from storage.stints import Clock, Stints
from storage.taps import Taps
from storage.targets import Targets
from storage.tasks import Tasks
from storage.told_weather import Weather
from storage.types import in_utc

R = TypeVar("R")
S = TypeVar("S")
T = TypeVar("T")


# A unit of work needs few parts of its desk, so each is made when it is first asked for.
def _shelf(made: Callable[[Form[R], Connection, int, Journal], S], form: Form[R]) -> cached_property[S]:
    return cached_property(lambda desk: made(form, desk._connection, desk._person_id, desk.journal))


def _own(made: Callable[[Connection, int], S]) -> cached_property[S]:
    return cached_property(lambda desk: made(desk._connection, desk._person_id))


class Desk:
    """Everything of one person, as of ``now`` (UTC), and what may be asked beside it.

    Made by ``Database.desk`` only; ``person`` was read in the same transaction.
    """

    sections = _shelf(Sections, SECTIONS)
    categories = _shelf(Categories, CATEGORIES)
    jobs = _shelf(Jobs, JOBS)
    job_rates = _shelf(JobRates, JOB_RATES)
    handed_in = _shelf(HandedInPeriods, HANDED_IN)
    commitments = _shelf(Commitments, COMMITMENTS)
    routines = _shelf(Shelf[Routine], ROUTINES)
    goals = _shelf(Goals, GOALS)
    tasks = _shelf(Tasks, TASKS)
    targets = _shelf(Targets, TARGETS)
    stints = _shelf(Stints, STINTS)
    blocks = _shelf(Blocks, BLOCKS)
    sick_days = _shelf(SickDays, SICK_DAYS)
    running = _shelf(Clock, RUNNING)
    calendars = _shelf(Shelf[Calendar], CALENDARS)
    calendar_events = _shelf(CalendarEvents, CALENDAR_EVENTS)
    marks = _shelf(Shelf[Marking], MARKS)
    visits = _own(Visits)
    weather = _own(Weather)
    files = _own(SentFiles)
    outbox = _own(Outbox)
    taps = _own(Taps)
    rounds = _own(Rounds)
    silences = _own(Silences)

    def __init__(self, connection: Connection, person: Person, now: datetime, holidays: Holidays) -> None:
        self.now = in_utc(now)
        self.holidays = holidays
        self._connection = connection
        self._person_id = person.id
        self._remembered: dict[Hashable, tuple[list[int], Any]] = {}
        self.journal = Journal(connection, person.id, self.now)
        self.people = Self(connection, person, self.journal)
        self.handled = Handled(connection, self.now)
        self.forecasts = DeskForecasts(connection)
        self.leaving = Leaving(connection, person.id, self.now)

    @contextmanager
    def attempt(self) -> Iterator[None]:
        """On any exception, everything done since the block began is put back, and the desk goes on without it."""
        with self.journal.attempt():
            yield

    def remembered(self, what: Hashable, tables: Iterable[str], made: Callable[[], T]) -> T:
        """What is ``made`` of rows of these tables, of the person's own row and of this unit's moment: made once, until one is written."""
        versions = [self.journal.rows.versions[table] for table in (PEOPLE.name, *tables)]
        known = self._remembered.get(what)
        if known is None or known[0] != versions:
            known = self._remembered[what] = versions, made()
        found: T = known[1]
        return found

    def everything(self) -> tuple[TableRows, ...]:
        """All that is kept of the person, table by table."""
        return rows_of(self._connection, self._person_id)

    @property
    def person(self) -> Person:
        """The person, with every change of this unit of work."""
        return self.people.person
