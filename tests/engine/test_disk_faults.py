"""A disk that is full, a database that another program keeps, and one that is damaged: nothing half done, and a way back."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from bot.faults import in_words
from storage import sqlite
from storage.backup import FaultKind, check, copy_to, restore
from storage.errors import Locked, NoRoom, Unreadable
from tests.stage import Stage

PAGE = 4096


@pytest.fixture
def stage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Stage]:
    monkeypatch.setattr(sqlite, "_PRAGMAS", tuple(each.replace("10000", "50") for each in sqlite._PRAGMAS))
    made = Stage(tmp_path)
    yield made
    made.close()


def everything(stage: Stage) -> list[str]:
    """All that is kept, as SQL."""
    with closing(sqlite3.connect(stage.path)) as connection:
        return list(connection.iterdump())


@contextmanager
def no_room(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """As if the disk held no page more than the database has now: SQLite's own quota, which fails as a full disk does."""
    with closing(sqlite3.connect(stage.path)) as connection:
        (pages,) = connection.execute("PRAGMA page_count").fetchone()
    with monkeypatch.context() as full:
        full.setattr(sqlite, "_PRAGMAS", (*sqlite._PRAGMAS, f"PRAGMA max_page_count = {pages}"))
        stage.crash()
        yield
    stage.crash()


def log_until_full(stage: Stage) -> int:
    """Logs 3 minutes at a time until the disk is full; gives how often that went well, having seen that the last left no trace."""
    for logged in range(200):
        before = everything(stage)
        try:
            stage.say("3m workshop - " + "a long note " * 24)
        except NoRoom:
            assert everything(stage) == before
            return logged
    raise AssertionError("the disk was never full")


def test_on_a_full_disk_nothing_is_half_done_and_the_same_update_is_handled_once_there_is_room(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    stage.say("1h family")
    with no_room(stage, monkeypatch):
        logged = log_until_full(stage)
    stage.say("2h museum")
    assert stage.look(lambda desk: sum(each.minutes for each in desk.stints.all())) == 60 + 3 * logged + 120


def test_while_another_program_writes_nothing_is_done_and_afterwards_all_is(stage: Stage) -> None:
    with closing(sqlite3.connect(stage.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        before = everything(stage)
        with pytest.raises(Locked):
            stage.say("3h workshop")
        assert everything(stage) == before
        other.execute("ROLLBACK")
    assert "Workshop today: 3 h in all." in stage.say("3h workshop").lines


def come_back_and_log(stage: Stage) -> None:
    stage.crash()
    stage.say("1h museum")


def test_a_damaged_database_says_so_is_left_alone_and_a_backup_brings_all_back(stage: Stage, tmp_path: Path) -> None:
    stage.say("3h workshop")
    copy = tmp_path / "copy.sqlite"
    copy_to(stage.house.database, copy)
    stage.close()
    damaged = bytearray(stage.path.read_bytes())
    damaged[PAGE : len(damaged) // 2] = b"\xff" * (len(damaged) // 2 - PAGE)
    stage.path.write_bytes(damaged)
    url = f"sqlite:///{stage.path}"
    assert {fault.kind for fault in check(url)} <= {FaultKind.DAMAGED, FaultKind.UNREADABLE, FaultKind.OPEN_TO_OTHERS}
    assert {fault.kind for fault in check(url)} & {FaultKind.DAMAGED, FaultKind.UNREADABLE}
    with pytest.raises(Unreadable) as caught:
        come_back_and_log(stage)
    assert "restore a backup" in in_words(caught.value)
    aside = restore(copy, url)
    assert aside is not None
    assert aside.read_bytes()[PAGE:] != copy.read_bytes()[PAGE:]
    stage.crash()
    assert "Workshop today: 4 h in all." in stage.say("1h workshop").lines
