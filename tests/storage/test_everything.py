"""All of a person can be handed out, and taken away with nothing left."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from sqlalchemy import func, select

from storage.database import Database
from storage.everything import PERSONAL
from storage.records import Blocked, Person, RoundKind, Task
from storage.schema import metadata
from tests.databases import IN_A_FILE
from tests.storage.given import NOW, TUESDAY, fill, letter, still_owed, tables


def live(database: Database, person: Person) -> None:
    """Something in every table that holds a person's rows."""
    database.outbox.note_and_take([Blocked(0, person.address)], (), NOW)
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        entry = desk.journal.write("Filled", "k1")
        owed = desk.outbox.owe(letter("Filled", person.address))
        desk.outbox.owe(replace(letter("Again", person.address), edits=owed.id, answers=entry.id))
        desk.taps.note(owed.id, 0, 0, entry.id)
        desk.rounds.plan(RoundKind.MORNING, "2026-03-02", NOW)
        desk.journal.put_back(entry.id)
        replacing = desk.journal.write("Instead", "k1")
        desk.journal.undo(replacing.id, "Undone", "k2")


def test_everything_of_a_person_is_handed_out_as_it_lies_and_nothing_of_anyone_else(
    database: Database, person: Person, other: Person
) -> None:
    live(database, person)
    kept = tables(database, person_id=person.id)
    handed = {each.table: each for each in database.everything.of(person.id)}
    assert list(handed) == [table.name for table in PERSONAL]
    for name, rows in handed.items():
        assert rows.rows
        if name.startswith("journal_"):
            continue
        # The raw look pairs each value with its storage class.
        assert sorted(rows.rows, key=repr) == sorted((row[::2] for row in kept[name]), key=repr)
        assert len(rows.columns) == len(rows.rows[0])


def test_erasing_a_person_removes_every_row_of_theirs_and_no_other(database: Database, person: Person, other: Person) -> None:
    for each in (person, other):
        live(database, each)
    refusal = replace(letter("This bot is private.", person.address), person_id=None)
    database.handled.turn_away("u1", refusal, NOW, NOW - NOW)
    theirs = tables(database, person_id=other.id)
    database.everything.erase(person.id, NOW)
    left = tables(database, person_id=other.id)
    assert [row[0] for row in left.pop("erased")] == [person.id]
    assert left == {name: rows for name, rows in theirs.items() if name != "erased"}
    assert [parcel.address for parcel in still_owed(database)] == [other.address] * 2
    with database._connections.defining() as connection:
        for table in metadata.sorted_tables:
            if "person_id" in table.c:
                rows = connection.execute(select(func.count()).select_from(table).where(table.c.person_id == person.id))
                assert rows.scalar() == 0, table.name


def test_ids_of_an_erased_person_go_to_nobody_else(database: Database, person: Person, other: Person) -> None:
    database.everything.erase(other.id, NOW)
    assert database.people.admit(replace(other, id=0)).id > other.id


@IN_A_FILE
def test_what_an_erased_person_said_is_no_longer_in_the_bytes_of_any_file(
    database: Database, person: Person, other: Person, tmp_path: Path
) -> None:
    live(database, person)
    with database.desk(person.id, NOW) as desk:
        task = desk.tasks.add(Task(0, "a secret title", TUESDAY, 1))
        desk.journal.write("Added a secret title", "k3")
        desk.tasks.change(replace(task, title="a plain one"))
        desk.journal.write("Changed", "k4")
        desk.outbox.owe(letter("You said a secret title", person.address))
    database.forecasts.put("51.05 3.72", NOW, "a forecast for a secret place")
    assert b"secret" in bytes_in(tmp_path)
    database.everything.erase(person.id, NOW)
    assert b"secret" not in bytes_in(tmp_path)
    assert person.address.encode() not in bytes_in(tmp_path).replace(other.address.encode(), b"")
    database.close()
    assert b"secret" not in bytes_in(tmp_path)


def bytes_in(folder: Path) -> bytes:
    """All bytes of all files there."""
    return b"".join(path.read_bytes() for path in folder.iterdir())
