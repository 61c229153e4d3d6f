"""A file of every revision there has been, with rows in every table it had, comes to the newest whole."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import select

from storage.copying import integrity_faults
from storage.database import Database
from storage.revision import revision_of
from storage.schema import REVISIONS, metadata
from tests.storage.old_files import PEOPLE, file_at, rows_in


@pytest.mark.parametrize("revision", REVISIONS)
def test_every_row_of_an_older_file_is_there_afterwards_as_it_was(tmp_path: Path, revision: str) -> None:
    path = tmp_path / "week.db"
    before = file_at(path, revision)
    assert all(before.values()), "a table without a row proves nothing"
    database = Database(f"sqlite:///{path}")
    database.close()
    assert revision_of(path) == REVISIONS[-1]
    assert integrity_faults(path) == ()
    after = rows_in(path)
    for table, rows in before.items():
        kept = [{column: row[column] for column in rows[0]} for row in after[table]]
        assert kept == rows, table


@pytest.mark.parametrize("revision", REVISIONS)
def test_the_program_reads_all_that_an_older_one_wrote(tmp_path: Path, revision: str) -> None:
    path = tmp_path / "week.db"
    file_at(path, revision)
    database = Database(f"sqlite:///{path}")
    with database._connections.reading() as connection:
        for table in metadata.sorted_tables:
            list(connection.execute(select(table)))
    assert [person.id for person in database.people.all()] == list(PEOPLE)
    for person in database.people.all():
        database.everything.of(person.id)
    database.close()


@pytest.mark.parametrize("revision", REVISIONS)
def test_a_person_of_an_older_file_can_be_erased_whole(tmp_path: Path, revision: str) -> None:
    path = tmp_path / "week.db"
    file_at(path, revision)
    database = Database(f"sqlite:///{path}")
    database.everything.erase(1, database.people.get(2).joined)
    database.close()
    assert integrity_faults(path) == ()
    left = {row["person_id"] for rows in rows_in(path).values() for row in rows if "person_id" in row}
    assert left == {2}
