"""What the storage tests start from: a mechanic who also keeps a museum's front desk."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from itertools import chain
from pathlib import Path
from typing import Any

from sqlalchemy import Select, Table, column, select, table

from storage.database import Database
from storage.desk import Desk
from storage.records import (
    Author,
    Block,
    BreakRule,
    Calendar,
    Category,
    Commitment,
    DayHandedIn,
    Goal,
    HandedIn,
    Horizon,
    Job,
    JobRate,
    KeptEvent,
    Limit,
    Marking,
    OvertimeRules,
    Parcel,
    ParcelKind,
    PayPeriod,
    Person,
    Rounded,
    Rounding,
    RoundingStep,
    Routine,
    Running,
    Section,
    SickDay,
    Stint,
    Target,
    Task,
    ToldWeather,
    Visit,
    Weekday,
)
from storage.schema import metadata, people

NOW = datetime(2026, 3, 2, 5, 0, tzinfo=UTC)
MONDAY = date(2026, 3, 2)
TUESDAY = date(2026, 3, 3)
HOUR = timedelta(hours=1)
QUARTERS = Rounding(RoundingStep.QUARTER_HOUR, Rounded.DAYS)
OVERTIME = OvertimeRules(weekly=(Limit(2400, Decimal("1.5")),), daily=(Limit(480, Decimal("1.5")), Limit(720, Decimal("2.00"))))

Tables = dict[str, list[tuple[object, ...]]]


def newcomer(address: str) -> Person:
    """A person who has not been admitted yet."""
    return Person(0, address, "Europe/Brussels", NOW, "Ghent", 51.05, 3.72)


def admit(database: Database, address: str) -> Person:
    """A person with two sections and two categories, as a round set them up."""
    person = database.people.admit(newcomer(address))
    with database.desk(person.id, NOW) as desk:
        desk.sections.add(Section(0, "work"))
        desk.sections.add(Section(0, "personal"))
        desk.categories.add(Category(0, "workshop", "work", ("bike", "shop"), "steelblue"))
        desk.categories.add(Category(0, "museum", "work", ("desk", "front desk")))
        desk.journal.write("Set up", None, by=Author.ROUND)
    return person


def fill(desk: Desk) -> None:
    """One more row on every shelf, each with all its fields."""
    category = desk.categories.all()[0]
    desk.sections.add(Section(0, "family"))
    choir = desk.categories.add(Category(0, "choir", "family", ("singing",), "plum"))
    settled = Job(
        0, category.id, "Velo & Sons", PayPeriod.EVERY_TWO_WEEKS, Weekday.SUNDAY, MONDAY, 5, QUARTERS, (BreakRule(360, 30),), OVERTIME
    )
    job = desk.jobs.add(replace(settled, currency="GBP", remind=True, month_starts=21))
    desk.job_rates.add(JobRate(0, job.id, MONDAY, Decimal("14.50")))
    days = (DayHandedIn(MONDAY, 363, 360), DayHandedIn(TUESDAY, 0, 0))
    desk.handed_in.add(HandedIn(0, job.id, MONDAY, TUESDAY, NOW, days, QUARTERS, (BreakRule(360, 30),), 15, Decimal("87.00"), "GBP"))
    desk.commitments.add(Commitment(0, "Rehearsal", NOW, NOW + HOUR, "Europe/Brussels", choir.id, "FREQ=WEEKLY", except_days=(TUESDAY,)))
    desk.routines.add(Routine(0, "Stretching", 20, "FREQ=DAILY", MONDAY, category_id=choir.id))
    goal = desk.goals.add(Goal(0, "Learn the alto part", Horizon.WEEK, MONDAY, "family", choir.id, 120))
    desk.tasks.add(Task(0, "True the wheel", MONDAY, 1, category.id, goal.id, 45, pushes=(date(2026, 3, 1),)))
    desk.targets.add(Target(0, category.id, MONDAY, 1200, 1440))
    desk.stints.add(Stint(0, category.id, MONDAY, 50, NOW, NOW + HOUR, 10, (1,), "new spokes, “Ø 2 mm”"))
    desk.blocks.add(Block(0, MONDAY, NOW, NOW + HOUR, "True the wheel", category.id, 1, accepted=True))
    desk.sick_days.add(SickDay(0, MONDAY))
    desk.running.add(Running(0, category.id, NOW))
    calendar = desk.calendars.add(Calendar(0, "Museum", "https://museum.example/shifts.ics", True))
    desk.calendar_events.add(KeptEvent(0, calendar.id, "u1", "20260302T050000Z", "Shift", NOW, NOW + HOUR, False, False, True, "Desk"))
    desk.marks.add(Marking(0, "museum shift", category.id, False, True))
    desk.files.keep("k0", "shifts.ics", b"BEGIN:VCALENDAR")
    desk.visits.put(calendar.id, Visit(NOW, TUESDAY, '"v1"', "Mon, 02 Mar 2026 04:00:00 GMT"))
    desk.weather.put(ToldWeather(MONDAY, 3.0, 9.5, 61, True))


class GaveUpError(Exception):
    """A unit of work broke off in the middle."""


def work(database: Database, person: Person, act: Callable[[Desk], object], *, give_up: bool = False) -> None:
    """Does something in a unit of work of its own; with ``give_up``, breaks off at its end."""
    with database.desk(person.id, NOW) as desk:
        act(desk)
        if give_up:
            raise GaveUpError


def letter(text: str, address: str = "terminal:me") -> Parcel:
    """A plain message, not yet owed."""
    return Parcel(0, 0, address, ParcelKind.MESSAGE, text, NOW)


def still_owed(database: Database, after: int = 0) -> tuple[Parcel, ...]:
    """What was written after the parcel ``after`` and neither sent nor set aside, whoever's it is, in order of writing."""
    return tuple(database.outbox.get(each.id) for each in database.outbox.waiting(after, 10_000))


def tables(where: Path | Database, *, person_id: int | None = None) -> Tables:
    """Every row of every table but the journal's, each value with how the database holds it; of one person if asked."""
    if isinstance(where, Database) and where.is_shared:
        return _server_tables(where, person_id)
    with closing(sqlite3.connect(where if isinstance(where, Path) else where.path)) as connection:
        return {name: _rows(connection, name, person_id) for name in _table_names(connection)}


def _server_tables(database: Database, person_id: int | None) -> Tables:
    kept = [each for each in metadata.sorted_tables if not each.name.startswith("journal_")]
    with database._connections.defining() as connection:
        return {each.name: sorted(map(_with_types, connection.execute(_raw(each, person_id))), key=repr) for each in kept}


def _with_types(row: Iterable[object]) -> tuple[object, ...]:
    return tuple(chain.from_iterable((value, type(value).__name__) for value in row))


def _raw(kept: Table, person_id: int | None) -> Select[*tuple[Any, ...]]:
    """Selected without types, so that values come as they lie."""
    plain = table(kept.name, *(column(each.name) for each in kept.columns))
    owner = plain.c.get("person_id", plain.c.id if kept is people else None)
    return select(plain) if person_id is None or owner is None else select(plain).where(owner == person_id)


def _table_names(connection: sqlite3.Connection) -> list[str]:
    named = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    return [name for (name,) in named if not name.startswith(("journal_", "sqlite_"))]


def _rows(connection: sqlite3.Connection, table: str, person_id: int | None) -> list[tuple[object, ...]]:
    columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
    selected = ", ".join(f'"{name}", typeof("{name}")' for name in columns)
    owner = "person_id" if "person_id" in columns else "id" if table == "people" else None
    where = f" WHERE {owner} = {person_id}" if owner and person_id is not None else ""
    return sorted(connection.execute(f"SELECT {selected} FROM {table}{where}"), key=repr)
