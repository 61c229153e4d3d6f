"""A backup is made every day by itself; when it cannot be, that is logged once and tried again."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.rounds.daily_backup import DailyBackup
from storage.backup_folder import BackupFolder
from storage.database import Database
from storage.errors import NoRoom
from storage.everything import Everything
from storage.rotation import Rotation
from tests.storage.given import admit, tables

NOW = datetime(2026, 3, 2, 5, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)


@pytest.fixture
def folder(tmp_path: Path) -> BackupFolder:
    path = tmp_path / "week.sqlite"
    Database(f"sqlite:///{path}").close()
    return BackupFolder(path, tmp_path / "copies")


@pytest.fixture
def everything(folder: BackupFolder) -> Iterator[Everything]:
    database = Database(f"sqlite:///{folder.source}")
    yield database.everything
    database.close()


def days(folder: BackupFolder) -> list[int]:
    return [copy.day.day for copy in folder.copies()]


def live(backup: DailyBackup, *moments: datetime) -> None:
    for moment in moments:
        asyncio.run(backup.tick(moment))


def test_a_day_has_one_copy_however_often_it_is_looked_at(folder: BackupFolder, everything: Everything) -> None:
    live(DailyBackup(folder, Rotation(7, 4), everything), NOW, NOW + HOUR, NOW + 2 * HOUR)
    assert days(folder) == [2]
    made = folder.copies()[0].path.stat().st_mtime_ns
    live(DailyBackup(folder, Rotation(7, 4), everything), NOW + 3 * HOUR)
    assert folder.copies()[0].path.stat().st_mtime_ns == made


def test_old_copies_go_as_new_ones_come(folder: BackupFolder, everything: Everything) -> None:
    live(DailyBackup(folder, Rotation(2, 1), everything), *(NOW + timedelta(days=number) for number in range(5)))
    assert days(folder) == [5, 6]


def test_with_no_days_to_keep_none_is_made(folder: BackupFolder, everything: Everything) -> None:
    live(DailyBackup(folder, Rotation(0, 4), everything), NOW)
    assert days(folder) == []


def test_a_fault_is_logged_once_and_tried_again_after_an_hour(
    folder: BackupFolder, everything: Everything, caplog: pytest.LogCaptureFixture
) -> None:
    folder.folder.write_bytes(b"in the way")
    backup = DailyBackup(folder, Rotation(7, 4), everything)
    with caplog.at_level(logging.ERROR, "weekwright"):
        live(backup, *(NOW + timedelta(minutes=5) * number for number in range(40)))
    assert [record.getMessage().partition(":")[0] for record in caplog.records] == ["the daily backup failed"]
    folder.folder.unlink()
    live(backup, NOW + 6 * HOUR)
    assert days(folder) == [2]


def test_a_clock_set_back_does_not_hold_the_next_try_up(folder: BackupFolder, everything: Everything) -> None:
    folder.folder.write_bytes(b"in the way")
    backup = DailyBackup(folder, Rotation(7, 4), everything)
    live(backup, NOW + timedelta(days=300))
    folder.folder.unlink()
    live(backup, NOW)
    assert days(folder) == [2]


def test_who_was_erased_is_taken_out_of_the_copies_that_stay(folder: BackupFolder, everything: Everything) -> None:
    database = Database(f"sqlite:///{folder.source}")
    person, other = admit(database, "terminal:me"), admit(database, "terminal:someone else")
    live(DailyBackup(folder, Rotation(7, 4), everything), NOW)
    before = folder.copies()[0].path
    assert set(tables(before)["people"]) > set(tables(before, person_id=other.id)["people"])
    theirs = tables(before, person_id=other.id)
    database.everything.erase(person.id, NOW)
    live(DailyBackup(folder, Rotation(7, 4), everything), NOW + timedelta(days=1))
    assert days(folder) == [2, 3]
    assert everything.erased() == ()
    for copy in folder.copies():
        assert tables(copy.path) == theirs | {"erased": tables(copy.path)["erased"]}
        assert b"terminal:me" not in copy.path.read_bytes()
        assert folder.faults_of(copy) == ()
    database.close()


def test_who_was_erased_is_taken_out_the_next_time_when_a_copy_could_not_be_written(
    folder: BackupFolder, everything: Everything, monkeypatch: pytest.MonkeyPatch
) -> None:
    database = Database(f"sqlite:///{folder.source}")
    person = admit(database, "terminal:me")
    backup = DailyBackup(folder, Rotation(7, 4), everything)
    live(backup, NOW)
    database.everything.erase(person.id, NOW)

    def failing(*_: object) -> None:
        raise NoRoom(folder.folder, "no space left")

    with monkeypatch.context() as patched:
        patched.setattr("storage.backup_folder.forget_in", failing)
        live(backup, NOW + timedelta(days=1))
    assert everything.erased() == (person.id,)
    live(backup, NOW + timedelta(days=1, hours=2))
    assert everything.erased() == ()
    assert all(tables(copy.path)["people"] == [] for copy in folder.copies())
    database.close()
