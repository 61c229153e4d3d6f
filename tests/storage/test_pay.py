"""Jobs, their rates and what was handed in; and how those of before came to hold more."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from storage.database import Database
from storage.errors import Refused, StillUsed
from storage.migrating import upgrade
from storage.records import DayHandedIn, HandedIn, Job, JobRate, PayPeriod, Person
from storage.sqlite import make_private, open_engine
from tests.storage.given import MONDAY, NOW, OVERTIME, QUARTERS, TUESDAY

BEFORE = """
INSERT INTO people VALUES (1, 'terminal:me', 'Europe/Brussels', '2026-03-02T05:00:00.000000Z', NULL, NULL, NULL,
    '06:00', '21:00', 'monday', 'day-month', '06:00', '20:00', '18:00', 20, 'done', 1);
INSERT INTO sections VALUES (1, 1, 'work');
INSERT INTO categories VALUES (1, 1, 'workshop', 'work', '[]', 'grey'), (1, 2, 'museum', 'work', '[]', 'grey'),
    (1, 3, 'choir', 'work', '[]', 'grey');
INSERT INTO jobs VALUES (1, 1, 1, 'Velo & Sons', 'weekly'), (1, 4, 2, 'City Museum', 'every two weeks');
INSERT INTO stints VALUES (1, 1, 2, '2026-03-02', 210, NULL, NULL, 30, '[]', NULL);
INSERT INTO journal_numbers VALUES (1, 'jobs', 4);
INSERT INTO journal_entries VALUES (7, 1, '2026-03-02T05:00:00.000000Z', 'Added choir', 'k1', 8, NULL, NULL, 'person'),
    (8, 1, '2026-03-02T05:01:00.000000Z', 'Undone', 'k2', NULL, 7, NULL, 'person');
INSERT INTO journal_changes VALUES
    (7, 0, 1, 'jobs', 2, NULL, '{"id":2,"category_id":3,"employer":"Choir","pay_period":"monthly"}'),
    (8, 0, 1, 'jobs', 2, '{"id":2,"category_id":3,"employer":"Choir","pay_period":"monthly"}', NULL);
"""


@pytest.fixture
def migrated(tmp_path: Path) -> Iterator[Database]:
    """A database that was made and filled when jobs held an employer and a pay period only."""
    path = tmp_path / "week.db"
    make_private(path)
    engine = open_engine(path, foreign_keys=False)
    with engine.begin() as connection:
        upgrade(connection, "0002")
    engine.dispose()
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(BEFORE)
    database = Database(f"sqlite:///{path}")
    yield database
    database.close()


def test_jobs_of_before_keep_what_they_held_and_nothing_more_is_settled(migrated: Database) -> None:
    with migrated.desk(1, NOW) as desk:
        assert desk.jobs.all() == (
            Job(1, 1, "Velo & Sons", PayPeriod.WEEKLY),
            Job(4, 2, "City Museum", PayPeriod.EVERY_TWO_WEEKS),
        )
        assert (*desk.job_rates.all(), *desk.handed_in.all()) == ()
        assert [(stint.category_id, stint.minutes) for stint in desk.stints.all()] == [(2, 210)]


def test_a_job_that_was_undone_before_can_be_brought_back_after(migrated: Database) -> None:
    with migrated.desk(1, NOW) as desk:
        desk.journal.undo(8, "Brought back", "k3")
        assert desk.jobs.get(2) == Job(2, 3, "Choir", PayPeriod.MONTHLY)


def test_new_jobs_are_numbered_on_from_those_of_before(migrated: Database) -> None:
    with migrated.desk(1, NOW) as desk:
        assert desk.jobs.add(Job(0, 3, "Choir")).id == 5
        desk.journal.write("Added", "k3")


@pytest.fixture
def job(database: Database, person: Person) -> Job:
    """The museum, paid every two weeks."""
    with database.desk(person.id, NOW) as desk:
        kept = desk.jobs.add(Job(0, 2, "City Museum", PayPeriod.EVERY_TWO_WEEKS, rounding=QUARTERS, overtime=OVERTIME))
        desk.journal.write("Added", "k0")
    return kept


def test_a_category_is_one_job_at_most(database: Database, person: Person, job: Job) -> None:
    with database.desk(person.id, NOW) as desk:
        assert desk.jobs.of_category(2) == job
        assert desk.jobs.of_category(1) is None
        with pytest.raises(Refused), desk.attempt():
            desk.jobs.add(replace(job, id=0))


def test_rates_come_in_the_order_they_hold_and_one_a_day(database: Database, person: Person, job: Job) -> None:
    with database.desk(person.id, NOW) as desk:
        later = desk.job_rates.add(JobRate(0, job.id, TUESDAY, Decimal("15.10")))
        first = desk.job_rates.add(JobRate(0, job.id, MONDAY, Decimal("14.50")))
        assert desk.job_rates.of(job.id) == (first, later)
        assert desk.job_rates.of(job.id + 1) == ()
        with pytest.raises(Refused), desk.attempt():
            desk.job_rates.add(replace(first, id=0, per_hour=Decimal(20)))
        desk.journal.write("Kept", "k1")


def test_a_job_with_rates_stays(database: Database, person: Person, job: Job) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.job_rates.add(JobRate(0, job.id, MONDAY, Decimal("14.50")))
        with pytest.raises(StillUsed):
            desk.jobs.remove(job.id)
        desk.journal.write("Kept", "k1")


@pytest.mark.parametrize(("first", "last", "found"), [(-3, -1, 0), (-3, 0, 1), (13, 20, 1), (14, 20, 0), (3, 4, 1), (0, 13, 1)])
def test_a_period_handed_in_is_found_by_any_day_it_holds(
    database: Database, person: Person, job: Job, first: int, last: int, found: int
) -> None:
    period = HandedIn(0, job.id, MONDAY, MONDAY + timedelta(days=13), NOW, (DayHandedIn(MONDAY, 363, 360),), gross=Decimal("87.00"))
    with database.desk(person.id, NOW) as desk:
        kept = desk.handed_in.add(period)
        desk.journal.write("Handed in", "k1")
        days = [MONDAY + timedelta(days=each) for each in (first, last)]
        assert desk.handed_in.touching(*days) == (kept,) * found
        assert desk.handed_in.of(job.id) == (kept,)
        assert desk.handed_in.since(job.id, days[0]) == (kept,) * (first <= 13)
        assert desk.handed_in.exactly(job.id, *days) == (kept if (first, last) == (0, 13) else None)


def test_all_that_is_settled_is_undone_and_done_again(database: Database, person: Person, job: Job) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.jobs.change(replace(job, rounding=None, payday_after=5, anchor=date(2026, 3, 2), remind=True))
        desk.job_rates.add(JobRate(0, job.id, MONDAY, Decimal("14.50")))
        entry = desk.journal.write("Settled", "k1")
        settled = desk.jobs.get(job.id), desk.job_rates.all()
        undoing = desk.journal.undo(entry.id, "Undone", "k2")
        assert (desk.jobs.get(job.id), desk.job_rates.all()) == (job, ())
        desk.journal.undo(undoing.id, "Done again", "k3")
        assert (desk.jobs.get(job.id), desk.job_rates.all()) == settled


def test_nobody_sees_the_jobs_of_another(database: Database, person: Person, other: Person, job: Job) -> None:
    with database.desk(other.id, NOW) as desk:
        assert desk.jobs.of_category(2) is None
        assert (*desk.job_rates.of(job.id), *desk.handed_in.touching(date.min, date.max)) == ()
