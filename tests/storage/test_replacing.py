"""What a message did is replaced when it is edited, and an attempt that fails leaves no trace."""

from __future__ import annotations

from dataclasses import replace

import pytest

from storage.database import Database
from storage.desk import Desk
from storage.errors import AlreadyUndone, ChangedSince
from storage.records import Entry, Person, Task
from tests.storage.given import MONDAY, NOW, GaveUpError
from tests.storage.test_journal import logged


@pytest.fixture
def corrected(database: Database, person: Person) -> list[Entry]:
    """A message that said two hours, was edited to three and then to four: the entries of the three."""
    with database.desk(person.id, NOW) as desk:
        entries = [logged(desk, 120, "m1")[1]]
        for minutes in (180, 240):
            desk.journal.put_back(entries[-1].id)
            entries.append(logged(desk, minutes, "m1")[1])
    return entries


def minutes(desk: Desk) -> list[int]:
    return [stint.minutes for stint in desk.stints.all()]


def in_force(desk: Desk, entries: list[Entry]) -> list[bool]:
    return [desk.journal.get(entry.id).undone_by is None for entry in entries]


def test_a_message_edited_twice_counts_once(database: Database, person: Person, corrected: list[Entry]) -> None:
    with database.desk(person.id, NOW) as desk:
        assert minutes(desk) == [240]
        assert in_force(desk, corrected) == [False, False, True]
        assert [entry.replaces for entry in corrected] == [None, corrected[0].id, corrected[1].id]
        assert desk.journal.by_heard("m1") == desk.journal.latest_to_undo() == corrected[2]


def test_undoing_edits_goes_back_through_what_the_message_said(database: Database, person: Person, corrected: list[Entry]) -> None:
    with database.desk(person.id, NOW) as desk:
        undone = desk.journal.undo(corrected[2].id, "Undone", "k2")
        assert minutes(desk) == [180]
        assert in_force(desk, corrected) == [False, True, False]
        assert desk.journal.by_heard("m1") == desk.journal.get(corrected[1].id)
        desk.journal.undo(undone.id, "Brought back", "k3")
        assert minutes(desk) == [240]
        assert in_force(desk, corrected) == [False, False, True]
        for left in (2, 1):
            desk.journal.undo(corrected[left].id, "Undone", "k4")
        assert minutes(desk) == [120]
        assert in_force(desk, corrected) == [True, False, False]
        desk.journal.undo(corrected[0].id, "Undone", "k5")
        assert minutes(desk) == []


def test_a_message_edited_after_an_undone_edit_still_counts_once(database: Database, person: Person, corrected: list[Entry]) -> None:
    with database.desk(person.id, NOW) as desk:
        undone = desk.journal.undo(corrected[2].id, "Undone", "k2")
        before = desk.journal.by_heard("m1")
        assert before is not None
        desk.journal.put_back(before.id)
        logged(desk, 300, "m1")
        assert minutes(desk) == [300]
        with pytest.raises(ChangedSince):
            desk.journal.undo(undone.id, "Brought back", "k3")


def test_an_undo_that_is_replaced_leaves_what_it_undid_in_force(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        _, entry = logged(desk, 60)
        undone = desk.journal.undo(entry.id, "Undone", "k2")
        desk.journal.put_back(undone.id)
        replacing = desk.journal.write("Said something else", "k2")
        assert minutes(desk) == [60]
        assert in_force(desk, [entry, undone, replacing]) == [True, False, True]
        desk.journal.undo(replacing.id, "Undone", "k3")
        assert minutes(desk) == []
        assert in_force(desk, [entry, undone, replacing]) == [False, True, False]


def test_what_changed_since_is_not_replaced(database: Database, person: Person, corrected: list[Entry]) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.stints.change(replace(desk.stints.all()[0], minutes=1))
        desk.journal.write("Changed", "k2")
        with pytest.raises(ChangedSince):
            desk.journal.put_back(corrected[2].id)
        with pytest.raises(AlreadyUndone):
            desk.journal.put_back(corrected[1].id)
        assert desk.journal.write("Nothing", "k3").replaces is None
        assert minutes(desk) == [1]


def test_an_attempt_that_fails_leaves_the_desk_as_it_was(database: Database, person: Person) -> None:
    def attempt(desk: Desk) -> None:
        with desk.attempt():
            desk.people.change(replace(person, zone="Africa/Cairo"))
            assert desk.person.zone == "Africa/Cairo"
            logged(desk, 60)
            desk.tasks.add(Task(0, "Wheel", MONDAY, 1))
            raise GaveUpError

    with database.desk(person.id, NOW) as desk:
        goal = desk.tasks.add(Task(0, "Brakes", MONDAY, 1))
        with pytest.raises(GaveUpError):
            attempt(desk)
        assert desk.person == person
        assert desk.tasks.all() == (goal,)
        with desk.attempt():
            desk.tasks.change(replace(goal, title="Rear brakes"))
        entry = desk.journal.write("Planned", "k1")
        assert [change.table for change in desk.journal.changes(entry.id)] == ["tasks", "tasks"]
        assert desk.stints.all() == ()


def test_an_attempt_that_fails_forgets_what_was_to_be_replaced(database: Database, person: Person) -> None:
    def attempt(desk: Desk, entry: Entry) -> None:
        with desk.attempt():
            desk.journal.put_back(entry.id)
            raise GaveUpError

    with database.desk(person.id, NOW) as desk:
        _, entry = logged(desk, 60)
        with pytest.raises(GaveUpError):
            attempt(desk, entry)
        assert minutes(desk) == [60]
        assert desk.journal.write("Showed the day", "k2").replaces is None
        assert in_force(desk, [entry]) == [True]
