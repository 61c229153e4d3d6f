"""The folder of daily copies holds whole, private files of days, and no more of them than asked for."""

from __future__ import annotations

import os
import stat
from datetime import date, timedelta
from pathlib import Path

import pytest

from storage import sealing
from storage.backup import copy_to, restore, unsealed
from storage.backup_folder import BackupFolder
from storage.database import Database
from storage.errors import AlreadyThere, Faulty, NoKey, Unreadable, WrongKey
from storage.records import Person
from storage.rotation import Rotation
from tests.databases import FILE
from tests.storage.given import MONDAY, NOW, fill, tables


@pytest.fixture
def database_kind() -> str:
    """All of this is of what only a file has."""
    return FILE


SECRET = "spokes and canals, 1908"


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sealing, "COST", 2)


@pytest.fixture
def full(database: Database, person: Person) -> Database:
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        desk.journal.write("Filled", "k")
    return database


@pytest.mark.parametrize("secret", [None, SECRET])
def test_a_day_has_one_private_copy_that_comes_back_whole(full: Database, url: str, tmp_path: Path, secret: str | None) -> None:
    folder = BackupFolder(full.path, secret=secret)
    assert not folder.has(MONDAY)
    path = folder.make(MONDAY)
    assert folder.has(MONDAY)
    assert [copy.path for copy in folder.copies()] == [path]
    assert [each.name for each in path.parent.iterdir()] == [path.name]
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert folder.faults_of(folder.copies()[0]) == ()
    before = tables(full.path)
    full.close()
    restore(path, url, secret)
    assert tables(full.path) == before


def test_a_sealed_copy_shows_nothing_and_wants_its_own_key(full: Database, url: str, tmp_path: Path) -> None:
    path = BackupFolder(full.path, secret=SECRET).make(MONDAY)
    assert b"Learn the alto part" not in path.read_bytes()
    before = tables(full.path)
    with pytest.raises(NoKey):
        restore(path, url)
    with pytest.raises(WrongKey):
        restore(path, url, "another key altogether")
    assert tables(full.path) == before
    assert {each.name for each in tmp_path.iterdir()} <= {"week.db", "week.db-wal", "week.db-shm", "week.db.lock", "backups"}


def test_a_copy_by_hand_is_sealed_too(full: Database, tmp_path: Path) -> None:
    copy_to(full, tmp_path / "mine", SECRET)
    sealing.prove(tmp_path / "mine", SECRET)
    with pytest.raises(AlreadyThere):
        copy_to(full, tmp_path / "mine", SECRET)


def test_a_sealed_copy_that_cannot_be_kept_leaves_nothing(full: Database, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = os.fsync
    calls: list[int] = []

    def failing(file: int) -> None:
        calls.append(file)
        if len(calls) > 2:
            raise OSError(5, "Input/output error")
        real(file)

    monkeypatch.setattr("os.fsync", failing)
    with pytest.raises(Faulty, match="Input/output"):
        copy_to(full, tmp_path / "mine", SECRET)
    assert {each.name for each in tmp_path.iterdir()} <= {"week.db", "week.db-wal", "week.db-shm"}


def test_what_a_crash_left_half_made_is_made_again(full: Database) -> None:
    folder = BackupFolder(full.path)
    folder.folder.mkdir()
    half = folder.folder / f"week-{MONDAY}.sqlite.part"
    half.write_bytes(b"half")
    assert folder.copies() == ()
    folder.make(MONDAY)
    assert not half.exists()
    assert folder.faults_of(folder.copies()[0]) == ()


def test_only_its_own_copies_are_ever_taken_away(full: Database) -> None:
    folder = BackupFolder(full.path)
    days = [MONDAY + timedelta(days=number) for number in range(5)]
    for day in days:
        folder.make(day)
    for name in ("other-2026-03-02.sqlite", "week-2026-02-30.sqlite", "week-notes.txt", "week-2026-03-02.sqlite.bak"):
        (folder.folder / name).write_bytes(b"mine")
    gone = folder.rotate(days[-1], Rotation(2, 1))
    assert {path.name for path in gone} == {f"week-{day}.sqlite" for day in days[:3]}
    assert len(list(folder.folder.iterdir())) == 6


def test_a_damaged_copy_is_found(full: Database) -> None:
    folder = BackupFolder(full.path)
    path = folder.make(MONDAY)
    with path.open("r+b") as file:
        file.seek(4096)
        file.write(b"\xff" * 8192)
    assert folder.faults_of(folder.copies()[0])
    path.write_bytes(b"a shopping list")
    with pytest.raises(Unreadable):
        folder.faults_of(folder.copies()[0])


def test_trying_out_leaves_nothing_and_fails_where_a_copy_would(full: Database, tmp_path: Path) -> None:
    folder = BackupFolder(full.path)
    folder.try_out()
    assert list(folder.folder.iterdir()) == []
    (tmp_path / "taken").write_bytes(b"no folder")
    for impossible in (BackupFolder(full.path, tmp_path / "taken"), BackupFolder(full.path, tmp_path / "taken" / "deeper")):
        with pytest.raises(Faulty):
            impossible.make(date(2026, 3, 2))
        with pytest.raises(Faulty):
            impossible.try_out()
    with pytest.raises(Faulty):
        BackupFolder(full.path, tmp_path / "taken").copies()


@pytest.mark.parametrize("secret", [None, SECRET])
def test_an_erased_person_is_taken_out_of_every_copy_and_of_its_bytes(
    full: Database, person: Person, other: Person, secret: str | None
) -> None:
    folder = BackupFolder(full.path, secret=secret)
    folder.make(MONDAY)
    folder.forget([person.id])
    with unsealed(folder.copies()[0].path, full.path, secret) as plain:
        left = tables(plain)
        assert b"Learn the alto part" not in plain.read_bytes()
        assert person.address.encode() not in plain.read_bytes().replace(other.address.encode(), b"")
    assert [row[0] for row in left["people"]] == [other.id]
    assert folder.faults_of(folder.copies()[0]) == ()
    assert sealing.is_sealed(folder.copies()[0].path) == (secret is not None)
    made = folder.copies()[0].path.stat().st_mtime_ns
    folder.forget([person.id])
    assert folder.copies()[0].path.stat().st_mtime_ns == made
