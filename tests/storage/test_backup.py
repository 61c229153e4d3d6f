"""Copies are consistent and private, come back whole, and what is wrong is found."""

from __future__ import annotations

import os
import sqlite3
import stat
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from storage.backup import Fault, FaultKind, check, copy_to, restore
from storage.database import Database
from storage.errors import AlreadyThere, Busy, Faulty, TooNew, Unreadable
from storage.records import Person, Stint
from tests.databases import FILE
from tests.storage.given import MONDAY, NOW, admit, fill, tables


@pytest.fixture
def database_kind() -> str:
    """All of this is of what only a file has."""
    return FILE


def log(database: Database, person: Person, minutes: int) -> None:
    with database.desk(person.id, NOW) as desk:
        desk.stints.add(Stint(0, 1, MONDAY, minutes))
        desk.journal.write("Logged", "k")


def test_a_copy_made_during_a_unit_of_work_holds_what_was_whole_before(database: Database, person: Person, tmp_path: Path) -> None:
    log(database, person, 60)
    before = tables(database.path)
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        copy_to(database, tmp_path / "copy.db")
        desk.journal.write("Filled", "k")
    assert tables(tmp_path / "copy.db") == before


def test_a_copy_is_one_private_file_even_when_others_may_read_new_files(database: Database, person: Person, tmp_path: Path) -> None:
    folder = tmp_path / "copies"
    before = os.umask(0o000)
    try:
        copy_to(database, folder / "copy.db")
    finally:
        os.umask(before)
    assert [path.name for path in folder.iterdir()] == ["copy.db"]
    assert stat.S_IMODE((folder / "copy.db").stat().st_mode) == 0o600


def test_a_copy_never_replaces_a_file(database: Database, tmp_path: Path) -> None:
    taken = tmp_path / "copy.db"
    taken.write_text("mine")
    with pytest.raises(AlreadyThere) as there:
        copy_to(database, taken)
    assert there.value.path == taken
    assert taken.read_text() == "mine"


def test_a_copy_of_a_damaged_file_is_not_kept(database: Database, person: Person, tmp_path: Path) -> None:
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        desk.journal.write("Filled", "k")
    database.close()
    damage(database.path)
    with pytest.raises(Unreadable):
        copy_to(database, tmp_path / "copy.db")
    assert not (tmp_path / "copy.db").exists()


def test_a_copy_in_which_rows_name_what_is_not_there_is_not_kept(database: Database, person: Person, tmp_path: Path) -> None:
    with closing(sqlite3.connect(database.path)) as connection, connection:
        connection.execute("DELETE FROM people")
    with pytest.raises(Unreadable, match="names people"):
        copy_to(database, tmp_path / "copy.db")
    assert not (tmp_path / "copy.db").exists()


def test_a_copy_that_cannot_be_written_to_the_disk_is_not_kept(database: Database, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(_: int) -> None:
        raise OSError(5, "Input/output error")

    monkeypatch.setattr("os.fsync", failing)
    with pytest.raises(Faulty, match="Input/output"):
        copy_to(database, tmp_path / "copy.db")
    assert not (tmp_path / "copy.db").exists()


def damage(path: Path) -> None:
    """Overwrites everything after the first page."""
    size = path.stat().st_size
    with path.open("r+b") as file:
        file.seek(4096)
        file.write(b"\xff" * (size - 4096))


def test_a_copy_comes_back_and_the_replaced_file_is_kept_with_its_log(database: Database, person: Person, url: str, tmp_path: Path) -> None:
    log(database, person, 60)
    copy_to(database, tmp_path / "copy.db")
    kept = tables(database.path)
    log(database, person, 90)
    replaced = tables(database.path)
    # A process that dies leaves its log beside the file, so the file is not closed first.
    aside = restore(tmp_path / "copy.db", url)
    assert aside == tmp_path / "week.db.before-restoring"
    assert tables(tmp_path / "week.db") == kept
    assert tables(aside) == replaced
    assert stat.S_IMODE((tmp_path / "week.db").stat().st_mode) == 0o600
    assert tables(tmp_path / "copy.db") == kept
    reopened = Database(url)
    assert reopened.people.find("terminal:me") == person
    reopened.close()


def test_restoring_twice_keeps_both_replaced_files(database: Database, url: str, tmp_path: Path) -> None:
    copy_to(database, tmp_path / "copy.db")
    database.close()
    names = [restore(tmp_path / "copy.db", url) for _ in range(2)]
    assert names == [tmp_path / "week.db.before-restoring", tmp_path / "week.db.before-restoring-2"]


def test_a_copy_can_be_put_where_there_is_no_database(database: Database, person: Person, tmp_path: Path) -> None:
    copy_to(database, tmp_path / "copy.db")
    elsewhere = f"sqlite:///{tmp_path / 'new' / 'week.db'}"
    assert restore(tmp_path / "copy.db", elsewhere) is None
    opened = Database(elsewhere)
    assert opened.people.all() == (person,)
    opened.close()


def test_nothing_is_put_back_while_the_program_runs(database: Database, url: str, tmp_path: Path) -> None:
    copy_to(database, tmp_path / "copy.db")
    database.hold()
    with pytest.raises(Busy):
        restore(tmp_path / "copy.db", url)


@pytest.mark.parametrize("fault", ["empty", "text", "missing", "newer", "damaged"])
def test_a_copy_that_is_not_sound_is_not_put_back(database: Database, person: Person, url: str, tmp_path: Path, fault: str) -> None:
    copy = tmp_path / "copy.db"
    copy_to(database, copy)
    database.close()
    before = tables(database.path)
    spoil(copy, fault)
    expected = TooNew if fault == "newer" else Faulty if fault == "missing" else Unreadable
    with pytest.raises(expected):
        restore(copy, url)
    assert tables(database.path) == before
    left = {path.name for path in tmp_path.iterdir()} - {"copy.db", "week.db.lock"}
    assert left == {"week.db"}


def spoil(copy: Path, fault: str) -> None:
    if fault == "missing":
        copy.unlink()
    elif fault == "damaged":
        damage_a_leaf(copy)
    elif fault == "newer":
        with closing(sqlite3.connect(copy)) as connection, connection:
            connection.execute("UPDATE alembic_version SET version_num = '9999'")
    else:
        copy.write_bytes(b"" if fault == "empty" else b"my week, as text")


def damage_a_leaf(path: Path) -> None:
    """Spoils the page of one table, so that the rest can still be read."""
    with closing(sqlite3.connect(path)) as connection:
        (page,) = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = 'people'").fetchone()
    with path.open("r+b") as file:
        file.seek(4096 * (page - 1))
        file.write(b"\xff" * 4096)


def test_a_sound_file_has_no_faults(database: Database, person: Person, url: str) -> None:
    assert check(url) == ()


def test_what_is_wrong_with_a_file_is_told(database: Database, person: Person, url: str) -> None:
    path = database.path
    database.close()
    path.chmod(0o644)
    assert check(url) == (Fault(FaultKind.OPEN_TO_OTHERS, path, "mode 0644"),)
    path.chmod(0o600)
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("DELETE FROM people")
    (first, *_) = faults = check(url)
    assert first == replace(first, kind=FaultKind.DAMAGED, path=path)
    assert {fault.detail for fault in faults} >= {"sections names people", "categories names people"}
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    assert check(url) == (Fault(FaultKind.TOO_NEW, path, "9999"),)
    path.write_bytes(b"my week, as text")
    assert [fault.kind for fault in check(url)] == [FaultKind.UNREADABLE]
    path.unlink()
    assert check(url) == (Fault(FaultKind.MISSING, path, "no such file"),)
    assert not path.exists()


def test_a_damaged_page_is_found(database: Database, person: Person, url: str) -> None:
    database.close()
    damage_a_leaf(database.path)
    assert {fault.kind for fault in check(url)} == {FaultKind.DAMAGED}


def test_a_row_that_breaks_a_rule_is_found(database: Database, person: Person, url: str) -> None:
    with closing(sqlite3.connect(database.path)) as connection, connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        connection.execute("UPDATE people SET free_share = 101")
    (fault,) = check(url)
    assert fault == Fault(FaultKind.DAMAGED, database.path, "CHECK constraint failed in people")


def test_a_copy_in_use_elsewhere_goes_on_working(database: Database, tmp_path: Path) -> None:
    person = admit(database, "terminal:me")
    copy_to(database, tmp_path / "copy.db")
    copied = Database(f"sqlite:///{tmp_path / 'copy.db'}")
    log(copied, person, 60)
    copied.close()
