"""All of a database goes into an empty one, whatever kind each is, and back again."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import delete

from storage.backup import copy_to
from storage.database import Database
from storage.errors import Faulty, NotEmpty
from storage.records import Carried, Category, Person, RoundKind, Section
from storage.schema import handled
from tests.storage.given import HOUR, NOW, Tables, fill, letter, newcomer, still_owed, tables


@pytest.fixture
def source(tmp_path: Path) -> Iterator[Database]:
    """A file in which two people have lived, and a third one was."""
    made = Database(f"sqlite:///{tmp_path / 'source.db'}")
    people = [made.people.admit(newcomer(f"terminal:{number}")) for number in range(3)]
    for each in people[:2]:
        live(made, each)
    made.handled.first_time("u9", NOW)
    made.forecasts.put("51.05,3.72", NOW, '{"hourly":{}}')
    made.everything.erase(people[2].id, NOW)
    yield made
    made.close()


def live(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.sections.add(Section(0, "work"))
        desk.categories.add(Category(0, "workshop", "work", ("bike",), "steelblue"))
        fill(desk)
        entry = desk.journal.write("Filled", "k1")
        desk.journal.undo(entry.id, "Undone", "k2")
        (first, _) = (desk.outbox.owe(letter(text, person.address)) for text in ("1", "2"))
        desk.rounds.plan(RoundKind.MORNING, "2026-03-02", NOW + HOUR)
    database.outbox.note_and_take((), [first.id], NOW)
    database.outbox.note_and_take([Carried(first.id, "m1")], (), NOW)


def all_rows(path: Path) -> Tables:
    """Every row of a file, the journal's and the numbers given among them."""
    with closing(sqlite3.connect(path)) as connection:
        names = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
        return {name: sorted(connection.execute(f'SELECT * FROM "{name}"'), key=repr) for name in names if name != "sqlite_stat1"}


def test_there_and_back_again_every_row_is_as_it_was(source: Database, database: Database, tmp_path: Path) -> None:
    before = all_rows(source.path)
    copied = source.copy_into(database)
    assert copied["people"] == 2
    assert copied["journal_changes"] == len(before["journal_changes"])
    back = Database(f"sqlite:///{tmp_path / 'back.db'}")
    assert database.copy_into(back) == copied
    assert all_rows(back.path) == before
    assert all_rows(source.path) == before
    back.close()


def test_numbers_once_given_go_to_nobody_there_either(source: Database, database: Database) -> None:
    source.copy_into(database)
    assert database.people.admit(newcomer("terminal:new")).id == 4
    with database.desk(1, NOW) as desk:
        last = max(parcel.id for parcel in still_owed(database))
        assert desk.outbox.owe(letter("3", "terminal:0")).id > last


def test_all_goes_on_there(source: Database, database: Database) -> None:
    source.copy_into(database)
    with database.desk(1, NOW) as desk:
        undone = desk.journal.latest_undo()
        assert undone is not None
        desk.journal.undo(undone.id, "Done again", "k3")
        assert len(desk.stints.all()) == 1
        assert not desk.handled.first_time("u9")


def test_a_database_with_anything_in_it_is_refused_and_left_alone(source: Database, database: Database) -> None:
    database.handled.first_time("u1", NOW)
    before = tables(database)
    with pytest.raises(NotEmpty):
        source.copy_into(database)
    assert tables(database) == before


def test_what_is_not_read_back_as_it_was_written_is_named_and_nothing_is_kept(
    source: Database, database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = tables(database)
    monkeypatch.setattr(database._kind, "check_references", lambda connection: connection.execute(delete(handled)))
    with pytest.raises(Faulty, match="row 1 of handled"):
        source.copy_into(database)
    assert tables(database) == before


def test_people_brought_in_are_as_they_were_and_numbers_go_on_from_theirs(source: Database, database: Database) -> None:
    people = source.people.all()
    exported = [source.everything.of(person.id) for person in people]
    database.bring_in(exported)
    assert [database.everything.of(person.id) for person in people] == exported
    assert database.people.admit(newcomer("terminal:new")).id == 3
    with database.desk(1, NOW) as desk:
        assert desk.journal.write("Nothing", None).id > 4
        assert desk.outbox.owe(letter("3", "terminal:0")).id > 4


def test_a_copy_in_a_file_is_made_of_either_kind(source: Database, database: Database, tmp_path: Path) -> None:
    source.copy_into(database)
    copy_to(database, tmp_path / "copy.db")
    assert all_rows(tmp_path / "copy.db") == all_rows(source.path)
    assert sorted(path.name for path in tmp_path.glob("copy*")) == ["copy.db"]
