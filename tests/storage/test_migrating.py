"""An older file is brought to the newest schema whole, or stays as it was."""

from __future__ import annotations

import re
import shutil
import sqlite3
import stat
from contextlib import closing
from pathlib import Path

import pytest
from alembic.config import Config
from alembic.script import ScriptDirectory

from storage import migrating, revision
from storage.database import Database
from storage.errors import Refused, StorageError
from storage.migrating import configuration, upgrade
from storage.records import Person
from storage.schema import REVISIONS, metadata
from storage.sqlite import make_private, open_engine
from tests.databases import FILE
from tests.storage.given import NOW, admit, fill, tables


@pytest.fixture
def database_kind() -> str:
    """All of this is of what only a file has."""
    return FILE


# Rebuilding the table that all others name is what deletes their rows when references are checked meanwhile.
REBUILDS_PEOPLE = """
import sqlalchemy as sa
from alembic import op
revision, down_revision = "9001", "{newest}"
def upgrade():
    with op.batch_alter_table("people", recreate="always") as people:
        people.add_column(sa.Column("nickname", sa.Text, nullable=False, server_default="you"))
"""
BREAKS_REFERENCES = """
from alembic import op
revision, down_revision = "9001", "{newest}"
def upgrade():
    op.execute("UPDATE people SET place_name = 'moved'")
    op.execute("DELETE FROM categories")
"""
FAILS_HALFWAY = """
from alembic import op
revision, down_revision = "9001", "{newest}"
def upgrade():
    op.execute("UPDATE people SET place_name = 'moved'")
    op.execute("DROP TABLE nothing_of_the_kind")
"""


@pytest.fixture
def older(url: str) -> Person:
    """A file with data at the first revision, closed."""
    database = Database(url)
    person = admit(database, "terminal:me")
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        desk.journal.write("Filled", "k1")
    database.close()
    return person


def later_program(script: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """From now on the program knows one more migration than the real one does."""
    folder = tmp_path / "migrations"
    shutil.copytree(Path(migrating.__file__).parent / "migrations", folder)
    (folder / "versions" / "r9001_later.py").write_text(script.replace("{newest}", REVISIONS[-1]))
    config = Config()
    config.set_main_option("script_location", str(folder))
    monkeypatch.setattr(migrating, "configuration", lambda: config)
    monkeypatch.setattr(revision, "REVISIONS", (*REVISIONS, "9001"))


def definitions(path: Path) -> list[tuple[str, list[str]]]:
    """What each table and index is made of, in whatever order and quotes it is written: a column that came later stands last."""
    with closing(sqlite3.connect(path)) as connection:
        made = connection.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
        return sorted((name, sorted(filter(None, re.split(r"[\s]*[,\n]\s*", sql.replace('"', ""))))) for name, sql in made)


def test_migrated_and_new_files_are_the_same(url: str, tmp_path: Path) -> None:
    Database(url).close()
    migrated = tmp_path / "migrated.db"
    make_private(migrated)
    engine = open_engine(migrated, foreign_keys=False)
    with engine.begin() as connection:
        upgrade(connection, "head")
    engine.dispose()
    assert definitions(migrated) == definitions(tmp_path / "week.db")


def test_the_known_revisions_are_those_of_the_migrations() -> None:
    scripts = ScriptDirectory.from_config(configuration()).walk_revisions()
    assert tuple(script.revision for script in scripts)[::-1] == REVISIONS


def test_every_constraint_has_a_name() -> None:
    unnamed = [constraint for table in metadata.tables.values() for constraint in table.constraints if not constraint.name]
    assert unnamed == []


def test_an_older_file_is_migrated_with_every_row_and_a_private_copy_is_kept(
    url: str, older: Person, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = tables(tmp_path / "week.db")
    later_program(REBUILDS_PEOPLE, tmp_path, monkeypatch)
    Database(url).close()
    copy = tmp_path / f"week.db.before-migrating-{REVISIONS[-1]}"
    assert tables(copy) == before
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    after = tables(tmp_path / "week.db")
    assert after.pop("alembic_version") == [("9001", "text")]
    assert after.pop("people") == [(*row, "you", "text") for row in before.pop("people")]
    del before["alembic_version"]
    assert after == before
    reopened = Database(url)
    assert reopened.people.find("terminal:me") == older
    reopened.close()


def test_the_trap_is_real_references_checked_during_a_rebuild_delete_rows(
    url: str, older: Person, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    later_program(REBUILDS_PEOPLE, tmp_path, monkeypatch)
    engine = open_engine(tmp_path / "week.db", foreign_keys=True)
    with engine.begin() as connection:
        upgrade(connection, "head")
    engine.dispose()
    assert tables(tmp_path / "week.db")["stints"] == []


@pytest.mark.parametrize("script", [BREAKS_REFERENCES, FAILS_HALFWAY])
def test_a_migration_that_fails_leaves_the_file_as_it_was(
    url: str, older: Person, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, script: str
) -> None:
    before = tables(tmp_path / "week.db")
    later_program(script, tmp_path, monkeypatch)
    with pytest.raises(StorageError) as failed:
        Database(url)
    assert isinstance(failed.value, Refused) == (script == BREAKS_REFERENCES)
    assert tables(tmp_path / "week.db") == before


def test_a_second_copy_before_migrating_does_not_replace_the_first(
    url: str, older: Person, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    later_program(FAILS_HALFWAY, tmp_path, monkeypatch)
    for _ in range(2):
        with pytest.raises(StorageError):
            Database(url)
    assert (tmp_path / f"week.db.before-migrating-{REVISIONS[-1]}").exists()
    assert (tmp_path / f"week.db.before-migrating-{REVISIONS[-1]}-2").exists()


def test_tasks_settled_before_that_was_kept_count_for_the_day_they_were_meant_for(tmp_path: Path) -> None:
    path = tmp_path / "older.db"
    make_private(path)
    engine = open_engine(path, foreign_keys=False)
    with engine.begin() as connection:
        upgrade(connection, "0003")
        columns = connection.exec_driver_sql("PRAGMA table_info(people)").all()
        me = {row[1]: 1 if row[1] == "id" else 0 if row[2] == "INTEGER" else "me" for row in columns if row[3] or row[1] == "id"}
        connection.exec_driver_sql(f"INSERT INTO people ({', '.join(me)}) VALUES ({', '.join('?' * len(me))})", tuple(me.values()))
        for id, state in ((1, "open"), (2, "closed"), (3, "dropped")):
            connection.exec_driver_sql(
                "INSERT INTO tasks (person_id, id, title, day, number, state, pushes, outdoors) "
                "VALUES (1, ?, 'x', '2026-03-02', ?, ?, '[]', 0)",
                (id, id, state),
            )
        upgrade(connection, "0005")
        found = connection.exec_driver_sql("SELECT state, settled FROM tasks ORDER BY id").all()
    engine.dispose()
    assert [tuple(row) for row in found] == [("open", None), ("closed", "2026-03-02"), ("dropped", "2026-03-02")]
