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

T = TypeVar("T")


class Desk:
    """Everything of one person, as of ``now`` (UTC), and what may be asked beside it.

    Made by ``Database.desk`` only; ``person`` was read in the same transaction.
    """

    def __init__(self, connection: Connection, person: Person, now: datetime, holidays: Holidays) -> None:
        self.now = in_utc(now)
        self.holidays = holidays
        person_id = person.id
        self._connection = connection
        self._remembered: dict[Hashable, tuple[list[int], Any]] = {}
        self.journal = journal = Journal(connection, person_id, self.now)
        self.people = Self(connection, person, journal)
        self.sections = Sections(SECTIONS, connection, person_id, journal)
        self.categories = Categories(CATEGORIES, connection, person_id, journal)
        self.jobs = Jobs(JOBS, connection, person_id, journal)
        self.job_rates = JobRates(JOB_RATES, connection, person_id, journal)
        self.handed_in = HandedInPeriods(HANDED_IN, connection, person_id, journal)
        self.commitments = Commitments(COMMITMENTS, connection, person_id, journal)
        self.routines: Shelf[Routine] = Shelf(ROUTINES, connection, person_id, journal)
        self.goals = Goals(GOALS, connection, person_id, journal)
        self.tasks = Tasks(TASKS, connection, person_id, journal)
        self.targets = Targets(TARGETS, connection, person_id, journal)
        self.stints = Stints(STINTS, connection, person_id, journal)
        self.blocks = Blocks(BLOCKS, connection, person_id, journal)
        self.sick_days = SickDays(SICK_DAYS, connection, person_id, journal)
        self.running = Clock(RUNNING, connection, person_id, journal)
        self.calendars: Shelf[Calendar] = Shelf(CALENDARS, connection, person_id, journal)
        self.calendar_events = CalendarEvents(CALENDAR_EVENTS, connection, person_id, journal)
        self.marks: Shelf[Marking] = Shelf(MARKS, connection, person_id, journal)
        self.visits = Visits(connection, person_id)
        self.weather = Weather(connection, person_id)
        self.files = SentFiles(connection, person_id)
        self.outbox = Outbox(connection, person_id)
        self.taps = Taps(connection, person_id)
        self.rounds = Rounds(connection, person_id)
        self.silences = Silences(connection, person_id)
        self.handled = Handled(connection, self.now)
        self.forecasts = DeskForecasts(connection)
        self.leaving = Leaving(connection, person_id, self.now)

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
        return rows_of(self._connection, self.person.id)

    @property
    def person(self) -> Person:
        """The person, with every change of this unit of work."""
        return self.people.person
