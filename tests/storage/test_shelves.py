"""Every shelf keeps records as they are, for their own person only."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any

import pytest

from storage.database import Database
from storage.errors import NameTaken, NotThere, Refused, StillUsed, Unkeepable
from storage.records import Category, Commitment, Job, Person, Running, Section, Stint, Target, Task
from storage.shelf import Shelf
from tests.storage.given import HOUR, MONDAY, NOW, TUESDAY, fill, newcomer, tables, work

SHELVES = [
    "sections",
    "categories",
    "jobs",
    "commitments",
    "routines",
    "goals",
    "tasks",
    "targets",
    "stints",
    "running",
    "calendars",
    "calendar_events",
    "marks",
    "job_rates",
    "handed_in",
    "sick_days",
]

ELSE: dict[str, dict[str, Any]] = {
    "sections": {"name": "garden"},
    "categories": {"name": "garden", "aliases": ()},
    "calendar_events": {"recurrence": "20260309T050000Z"},
    "job_rates": {"since": TUESDAY},
    "sick_days": {"day": TUESDAY},
    "handed_in": {"last": date(2026, 3, 4)},
}
"""What makes a row another one, where no two may be alike."""


def shelf(desk: object, name: str) -> Shelf[Any]:
    found: Shelf[Any] = getattr(desk, name)
    return found


@pytest.fixture
def filled(database: Database, person: Person) -> Person:
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        desk.journal.write("Filled", "k1")
    return person


@pytest.mark.parametrize("name", SHELVES)
def test_what_was_added_is_found_in_a_later_unit_of_work(database: Database, filled: Person, name: str) -> None:
    with database.desk(filled.id, NOW) as desk:
        records = shelf(desk, name).all()
        assert records
        for record in records:
            assert shelf(desk, name).get(record.id) == record
            assert shelf(desk, name).find(record.id) == record


def test_a_record_comes_back_with_every_field_equal(database: Database, person: Person) -> None:
    wanted = Commitment(0, "Vélo fair", NOW, NOW + HOUR, "Europe/Brussels", 1, None, False, True, False, (MONDAY,), True)
    with database.desk(person.id, NOW) as desk:
        kept = desk.commitments.add(wanted)
        desk.journal.write("Added", "k1")
    with database.desk(person.id, NOW) as desk:
        assert desk.commitments.get(kept.id) == replace(wanted, id=kept.id)


@pytest.mark.parametrize("name", SHELVES)
def test_another_persons_rows_are_not_there(database: Database, filled: Person, other: Person, name: str) -> None:
    with database.desk(filled.id, NOW) as desk:
        record = shelf(desk, name).all()[-1]
    with database.desk(other.id, NOW) as desk:
        theirs = shelf(desk, name)
        assert theirs.find(record.id) is None
        for attempt in (lambda: theirs.get(record.id), lambda: theirs.change(record), lambda: theirs.remove(record.id)):
            with pytest.raises(NotThere) as missing:
                attempt()
            assert (missing.value.table, missing.value.id) == (name, record.id)
    with database.desk(filled.id, NOW) as desk:
        assert shelf(desk, name).get(record.id) == record


def test_a_row_cannot_name_another_persons_row(database: Database, filled: Person, other: Person) -> None:
    with database.desk(filled.id, NOW) as desk:
        choir = desk.categories.named("choir")
    assert choir is not None
    with pytest.raises(Refused), database.desk(other.id, NOW) as desk:
        desk.stints.add(Stint(0, choir.id, MONDAY, 60))


@pytest.mark.parametrize("name", SHELVES)
def test_an_id_is_never_given_twice(database: Database, filled: Person, name: str) -> None:
    with database.desk(filled.id, NOW) as desk:
        record = shelf(desk, name).all()[-1]
        for each in {"running": ["running"], "jobs": ["job_rates", "handed_in", "jobs"]}.get(name, []):
            shelf(desk, each).remove(1)
        desk.journal.write("Made room", "k2")
    with database.desk(filled.id, NOW) as desk:
        record = replace(record, **ELSE.get(name, {}))
        first = shelf(desk, name).add(record)
        shelf(desk, name).remove(first.id)
        second = shelf(desk, name).add(record)
        desk.journal.write("Twice", "k3")
        assert record.id < first.id < second.id


def test_ids_stay_unused_after_the_addition_was_undone(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        first = desk.stints.add(Stint(0, 1, MONDAY, 60))
        entry = desk.journal.write("Logged", "k1")
        desk.journal.undo(entry.id, "Undone", "k2")
        second = desk.stints.add(Stint(0, 1, MONDAY, 60))
        desk.journal.write("Logged", "k3")
    assert second.id == first.id + 1


def test_several_added_together_are_each_an_addition_in_their_order(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        first = desk.sections.add(Section(0, "garden"))
        more = desk.sections.add_all((Section(0, "shed"), Section(0, "attic")))
        assert desk.sections.add_all(()) == ()
        entry = desk.journal.write("Added", None)
    assert [each.id for each in more] == [first.id + 1, first.id + 2]
    with database.desk(person.id, NOW) as desk:
        assert set(more) <= set(desk.sections.all())
        assert [(change.row_id, change.before) for change in desk.journal.changes(entry.id)] == [(each.id, None) for each in (first, *more)]


def test_a_change_that_changes_nothing_leaves_nothing_to_journal(database: Database, filled: Person) -> None:
    with database.desk(filled.id, NOW) as desk:
        desk.tasks.change(desk.tasks.get(1))
        assert desk.journal.changes(desk.journal.write("Nothing", "k2").id) == ()


def test_what_others_name_cannot_be_removed(database: Database, filled: Person) -> None:
    with database.desk(filled.id, NOW) as desk:
        with pytest.raises(StillUsed) as used:
            desk.categories.remove(1)
        assert (used.value.table, used.value.id) == ("categories", 1)
        assert desk.categories.find(1) is not None


@pytest.mark.parametrize("name", ["WORKSHOP", "Bike", "front DESK"])
def test_a_category_cannot_take_a_name_or_alias_of_another_in_any_case(database: Database, person: Person, name: str) -> None:
    with database.desk(person.id, NOW) as desk:
        for category in (Category(0, name, "work"), Category(0, "repairs", "work", (name,))):
            with pytest.raises(NameTaken):
                desk.categories.add(category)
        free = desk.categories.add(Category(0, "repairs", "work"))
        with pytest.raises(NameTaken) as taken:
            desk.categories.change(replace(free, name=name))
        desk.journal.write("Added", "k1")
    assert taken.value.name == name.casefold()


def test_a_category_may_keep_its_own_name_and_answers_to_it_in_any_case(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        workshop = desk.categories.named("SHOP")
        assert workshop is not None
        changed = desk.categories.change(replace(workshop, colour="teal"))
        assert desk.categories.named("workshop") == changed
        assert desk.categories.named("bakery") is None
        desk.journal.write("Coloured", "k1")


def test_letters_beyond_ascii_are_the_same_name_in_any_case(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.categories.add(Category(0, "Église", "personal"))
        with pytest.raises(NameTaken):
            desk.categories.add(Category(0, "ÉGLISE", "personal"))
        desk.journal.write("Added", "k1")


def test_a_section_is_found_by_name_in_any_case_and_once_only(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        work = desk.sections.named("WORK")
        assert work == Section(1, "work")
        with pytest.raises(NameTaken):
            desk.sections.add(Section(0, "Work"))
        garden = desk.sections.add(Section(0, "garden"))
        assert desk.sections.change(replace(garden, name="Garden")) == desk.sections.named("garden")
        with pytest.raises(NameTaken):
            desk.sections.change(replace(garden, name="personal"))
        desk.journal.write("Added", "k1")


def test_two_people_may_use_the_same_names(database: Database, person: Person, other: Person) -> None:
    for each in (person, other):
        with database.desk(each.id, NOW) as desk:
            assert desk.categories.named("workshop") is not None


def test_one_clock_runs_at_a_time(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        assert desk.running.current() is None
        running = desk.running.add(Running(0, 1, NOW))
        assert desk.running.current() == running
        desk.journal.write("Clocked in", "k1")
    with pytest.raises(Refused), database.desk(person.id, NOW) as desk:
        desk.running.add(Running(0, 2, NOW))


@pytest.mark.parametrize(
    ("name", "record"),
    [
        ("sections", Section(0, "")),
        ("categories", Category(0, "", "work")),
        ("categories", Category(0, "garden", "nowhere")),
        ("stints", Stint(0, 1, MONDAY, -1)),
        ("stints", Stint(0, 1, MONDAY, 60, break_minutes=-1)),
        ("stints", Stint(0, 1, MONDAY, 60, NOW, NOW)),
        ("stints", Stint(0, 99, MONDAY, 60)),
        ("commitments", Commitment(0, "Fair", NOW, NOW, "UTC")),
        ("tasks", Task(0, "Wheel", MONDAY, 0)),
        ("tasks", Task(0, "Wheel", MONDAY, 1, estimate_minutes=-1)),
        ("tasks", Task(0, "Wheel", MONDAY, 1, goal_id=99)),
        ("targets", Target(0, 1, MONDAY, -1)),
    ],
)
def test_a_row_that_cannot_be_true_is_refused_and_nothing_of_it_stays(
    database: Database, person: Person, name: str, record: object
) -> None:
    before = tables(database)
    with pytest.raises(Refused):
        work(database, person, lambda desk: shelf(desk, name).add(record))
    assert tables(database) == before


def test_a_job_is_the_only_one_of_its_category(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.jobs.add(Job(0, 1, "Velo & Sons"))
        desk.journal.write("Added", "k1")
    with pytest.raises(Refused):
        work(database, person, lambda desk: desk.jobs.add(Job(0, 1, "Another")))


def test_an_instant_without_an_offset_is_refused_in_records_and_in_queries(database: Database, person: Person) -> None:
    naive = datetime(2026, 3, 2, 5)
    with database.desk(person.id, NOW) as desk:
        with pytest.raises(Unkeepable):
            desk.running.add(Running(0, 1, naive))
        with pytest.raises(Unkeepable):
            desk.stints.overlapping(naive, NOW)


@pytest.mark.parametrize("record", [Stint(0, 1, MONDAY, 60, note="half a pair: \ud800"), Stint(0, 1, MONDAY, 2**63)])
def test_what_no_database_could_hold_is_refused(database: Database, person: Person, record: Stint) -> None:
    with pytest.raises(Unkeepable):
        work(database, person, lambda desk: desk.stints.add(record))


def test_the_person_of_the_desk_is_always_fresh(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        assert desk.person == person
        moved = desk.people.change(replace(person, zone="Africa/Cairo"))
        assert desk.person == moved
        entry = desk.journal.write("Moved", "k1")
        desk.journal.undo(entry.id, "Undone", "k2")
        assert desk.person == person


def test_nobody_changes_another_person(database: Database, person: Person, other: Person) -> None:
    with database.desk(person.id, NOW) as desk, pytest.raises(NotThere):
        desk.people.change(replace(other, zone="Africa/Cairo"))
    assert database.people.get(other.id) == other


def test_people_are_found_by_address_and_by_id(database: Database, person: Person, other: Person) -> None:
    assert database.people.find("terminal:me") == person
    assert database.people.find("terminal:nobody") is None
    assert database.people.get(other.id) == other
    assert database.people.all() == (person, other)
    with pytest.raises(NotThere):
        database.people.get(99)
    with pytest.raises(Refused):
        database.people.admit(newcomer("terminal:me"))


@pytest.mark.parametrize("change", [{"latitude": 91.0}, {"longitude": None}, {"free_share": 101}])
def test_settings_that_cannot_be_true_are_refused(database: Database, person: Person, change: dict[str, Any]) -> None:
    with pytest.raises(Refused), database.desk(person.id, NOW) as desk:
        desk.people.change(replace(person, **change))
    assert database.people.get(person.id) == person
