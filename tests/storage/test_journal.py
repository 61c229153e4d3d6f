"""The journal tells every change, and takes it back byte for byte."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import pytest

from storage.database import Database
from storage.desk import Desk
from storage.errors import AlreadyUndone, ChangedSince, NotThere, Unjournalled
from storage.plain import Change
from storage.records import Author, Category, Entry, Person, Section, Stint, Task
from storage.types import RawRow
from tests.storage.given import HOUR, MONDAY, NOW, TUESDAY, fill, tables
from tests.storage.test_shelves import SHELVES, shelf


def logged(desk: Desk, minutes: int, heard_key: str | None = "k1") -> tuple[Stint, Entry]:
    stint = desk.stints.add(Stint(0, 1, MONDAY, minutes))
    return stint, desk.journal.write(f"Logged {minutes}", heard_key)


def test_changes_without_an_entry_are_a_mistake_and_are_not_kept(database: Database, person: Person) -> None:
    with pytest.raises(Unjournalled) as mistake, database.desk(person.id, NOW) as desk:
        desk.stints.add(Stint(0, 1, MONDAY, 60))
    assert mistake.value.tables == ("stints",)
    with database.desk(person.id, NOW) as desk:
        assert desk.stints.all() == ()


def test_an_entry_tells_what_it_changed_in_order(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        stint, entry = logged(desk, 60)
        desk.stints.change(replace(stint, minutes=90))
        later = desk.journal.write("Corrected", "k2")
        task = desk.tasks.add(Task(0, "Wheel", MONDAY, 1))
        desk.stints.remove(stint.id)
        desk.tasks.change(replace(task, title="Front wheel"))
        last = desk.journal.write("Mixed", "k3")
    with database.desk(person.id, NOW) as desk:
        row: RawRow = {"id": 1, "category_id": 1, "day": "2026-03-02", "minutes": 60, "starts": None, "ends": None}
        row |= {"break_minutes": 0, "task_ids": "[]", "note": None}
        assert desk.journal.changes(entry.id) == (Change("stints", 1, None, row),)
        assert desk.journal.changes(later.id) == (Change("stints", 1, row, row | {"minutes": 90}),)
        assert [change.table for change in desk.journal.changes(last.id)] == ["tasks", "stints", "tasks"]
        assert desk.journal.find_rows(last.id, "tasks") == (task.id,)
        assert desk.journal.find_rows(last.id, "goals") == ()


def test_an_entry_may_have_no_changes(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW + HOUR) as desk:
        entry = desk.journal.write("Showed the day", "k1")
        assert entry == desk.journal.get(entry.id)
        assert (entry.at, entry.summary, entry.heard_key, entry.by) == (NOW + HOUR, "Showed the day", "k1", Author.PERSON)
        assert desk.journal.changes(entry.id) == ()


@pytest.mark.parametrize("name", SHELVES)
def test_undo_gives_every_shelf_back_byte_for_byte(database: Database, person: Person, name: str) -> None:
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        filled = desk.journal.write("Filled", "k1")
    before = tables(database)
    with database.desk(person.id, NOW) as desk:
        _remove_what_names(desk, name)
        for record in shelf(desk, name).all()[-1:]:
            shelf(desk, name).remove(record.id)
        removed = desk.journal.write("Removed", "k2")
    assert tables(database) != before
    with database.desk(person.id, NOW) as desk:
        desk.journal.undo(removed.id, "Undone", "k3")
    assert tables(database) == before
    with database.desk(person.id, NOW) as desk:
        desk.journal.undo(filled.id, "Undone", "k4")
        assert not any(shelf(desk, each).all() for each in SHELVES[2:])


def _remove_what_names(desk: Desk, name: str) -> None:
    """Removes rows that name a row of this shelf, so that the shelf's own can go."""
    if name == "calendars":
        desk.calendar_events.remove(1)
    if name == "jobs":
        desk.job_rates.remove(1)
        desk.handed_in.remove(1)
    if name in ("goals", "categories", "sections"):
        desk.tasks.remove(1)
        desk.goals.remove(1)
    if name in ("categories", "sections"):
        desk.commitments.remove(1)
        desk.routines.remove(1)
        if name == "sections":
            desk.categories.remove(3)


def test_undo_takes_back_changed_settings(database: Database, person: Person) -> None:
    before = tables(database)
    with database.desk(person.id, NOW) as desk:
        desk.people.change(replace(person, free_share=30, latitude=None, longitude=None))
        entry = desk.journal.write("Set", "k1")
    with database.desk(person.id, NOW) as desk:
        desk.journal.undo(entry.id, "Undone", "k2")
    assert tables(database) == before


def test_an_undo_can_be_undone_again_and_again(database: Database, person: Person) -> None:
    bare = tables(database)
    with database.desk(person.id, NOW) as desk:
        _, entry = logged(desk, 60)
    full = tables(database)
    newest = entry.id
    for wanted, in_force in ((bare, False), (full, True), (bare, False), (full, True)):
        with database.desk(person.id, NOW) as desk:
            newest = desk.journal.undo(newest, "Undone", "k2").id
            assert (desk.journal.get(entry.id).undone_by is None) is in_force
        assert tables(database) == wanted


def test_what_is_back_in_force_can_be_undone_once_more(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        _, entry = logged(desk, 60)
        undone = desk.journal.undo(entry.id, "Undone", "k2")
        assert undone.undoes == entry.id
        with pytest.raises(AlreadyUndone) as already:
            desk.journal.undo(entry.id, "Undone", "k3")
        assert already.value.entry.undone_by == undone.id
        desk.journal.undo(undone.id, "Brought back", "k4")
        with pytest.raises(AlreadyUndone):
            desk.journal.undo(undone.id, "Brought back", "k5")
        desk.journal.undo(entry.id, "Undone", "k6")
        assert desk.stints.all() == ()


@pytest.mark.parametrize("later", ["change", "remove"])
def test_what_changed_since_is_not_undone_and_nothing_else_is(database: Database, person: Person, later: str) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.tasks.add(Task(0, "Wheel", MONDAY, 1))
        stint, entry = logged(desk, 60)
        if later == "change":
            desk.stints.change(replace(stint, minutes=90))
        else:
            desk.stints.remove(stint.id)
        desk.journal.write("Later", "k2")
    before = tables(database)
    with database.desk(person.id, NOW) as desk:
        with pytest.raises(ChangedSince) as changed:
            desk.journal.undo(entry.id, "Undone", "k3")
        assert changed.value.entry == desk.journal.get(entry.id)
        assert changed.value.entry.undone_by is None
    assert tables(database) == before


def test_a_removal_is_not_undone_when_the_row_is_there_again(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        stint, _ = logged(desk, 60)
        desk.stints.remove(stint.id)
        removal = desk.journal.write("Removed", "k2")
        undone = desk.journal.undo(removal.id, "Undone", "k3")
        desk.stints.change(replace(stint, minutes=61))
        desk.journal.write("Later", "k4")
        with pytest.raises(ChangedSince):
            desk.journal.undo(undone.id, "Redone", "k5")


def test_a_row_that_others_name_by_now_is_not_taken_away(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.sections.add(Section(0, "garden"))
        desk.categories.add(Category(0, "beds", "garden"))
        entry = desk.journal.write("Added", "k1")
        desk.stints.add(Stint(0, 3, MONDAY, 60))
        desk.journal.write("Logged", "k2")
    before = tables(database)
    with database.desk(person.id, NOW) as desk:
        with pytest.raises(ChangedSince):
            desk.journal.undo(entry.id, "Undone", "k3")
        # The failed attempt left nothing behind that would have to be journalled.
        desk.journal.demand_written()
    assert tables(database) == before


def test_a_name_taken_since_keeps_its_new_owner(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.categories.remove(2)
        entry = desk.journal.write("Removed", "k1")
        desk.categories.add(Category(0, "Museum", "personal"))
        desk.journal.write("Added", "k2")
        with pytest.raises(ChangedSince):
            desk.journal.undo(entry.id, "Undone", "k3")


def test_undo_waits_until_what_came_before_is_written(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        _, entry = logged(desk, 60)
        desk.tasks.add(Task(0, "Wheel", MONDAY, 1))
        with pytest.raises(Unjournalled):
            desk.journal.undo(entry.id, "Undone", "k2")
        desk.journal.write("Added", "k2")


def test_the_journal_knows_whether_a_row_was_touched_since_an_instant(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        task = desk.tasks.add(Task(0, "order spokes", TUESDAY, 1))
        desk.journal.write("Added", None)
        assert desk.journal.touched_since("tasks", task.id, NOW)
        assert not desk.journal.touched_since("tasks", task.id, NOW + HOUR)
        assert not desk.journal.touched_since("stints", task.id, NOW)
        assert not desk.journal.touched_since("tasks", task.id + 1, NOW)


def test_the_latest_to_undo_is_the_persons_own_in_force_and_changed_something(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        assert desk.journal.latest_to_undo() is None
        _, first = logged(desk, 10)
        _, second = logged(desk, 20)
        desk.journal.write("Showed the day", "k3")
        desk.tasks.add(Task(0, "Wheel", TUESDAY, 1))
        desk.journal.write("Carried over", None, by=Author.ROUND)
        assert desk.journal.latest_to_undo() == second
        undone = desk.journal.undo(second.id, "Undone", "k4")
        assert desk.journal.latest_to_undo() == first
        desk.journal.undo(undone.id, "Brought back", "k5")
        assert desk.journal.latest_to_undo() == second


def test_an_entry_is_found_by_the_message_that_asked_for_it(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        assert desk.journal.by_heard("m1") is None
        _, first = logged(desk, 10, "m1")
        logged(desk, 15, "m2")
        desk.journal.undo(first.id, "Corrected", "m1")
        _, second = logged(desk, 20, "m1")
        assert desk.journal.by_heard("m1") == second


def test_another_persons_journal_is_not_there(database: Database, person: Person, other: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        _, entry = logged(desk, 60)
    before = tables(database)
    with database.desk(other.id, NOW) as desk:
        with pytest.raises(NotThere):
            desk.journal.get(entry.id)
        with pytest.raises(NotThere):
            desk.journal.undo(entry.id, "Undone", "k")
        with pytest.raises(NotThere):
            desk.journal.put_back(entry.id)
        assert desk.journal.changes(entry.id) == ()
        assert desk.journal.by_heard("k1") is None
        assert desk.journal.latest_to_undo() is None
    assert tables(database) == before


def test_an_image_from_before_a_column_was_added_still_fits(database: Database, person: Person, tmp_path: Path) -> None:
    with database.desk(person.id, NOW) as desk:
        stint, entry = logged(desk, 60)
    with database._connections.defining() as connection:
        connection.exec_driver_sql("UPDATE journal_changes SET after = replace(after, ',\"note\":null', '')")
    with database.desk(person.id, NOW) as desk:
        desk.journal.undo(entry.id, "Undone", "k2")
        assert desk.stints.find(stint.id) is None


def test_what_was_read_as_a_record_comes_back_byte_for_byte_too(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        task = desk.tasks.add(Task(0, "Wheel", MONDAY, 1))
        desk.journal.write("Added", "k1")
    with database._connections.defining() as connection:
        connection.exec_driver_sql("UPDATE tasks SET pushes = '[ ]'")
    before = tables(database)
    with database.desk(person.id, NOW) as desk:
        assert desk.tasks.get(task.id) == task
        desk.tasks.change(replace(task, title="Front wheel", pushes=(MONDAY,)))
        desk.tasks.change(replace(task, title="Back wheel"))
        changed = desk.journal.write("Changed", "k2")
    with database.desk(person.id, NOW) as desk:
        assert [each.pushes for each in desk.tasks.open()] == [()]
        desk.journal.undo(changed.id, "Undone", "k3")
    assert tables(database) == before


def test_a_row_read_within_what_is_put_back_is_read_again(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        task = desk.tasks.add(Task(0, "Wheel", MONDAY, 1))
        with suppress(KeyError), desk.attempt():
            desk.tasks.change(replace(task, title="Front wheel"))
            assert desk.tasks.get(task.id).title == "Front wheel"
            raise KeyError
        desk.tasks.change(replace(task, title="Back wheel"))
        added, changed = desk.journal.changes(desk.journal.write("Changed", "k1").id)
        assert changed.before == added.after
