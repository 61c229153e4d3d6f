"""An export put into an empty database gives the same state; a broken one gives nothing but a sentence."""

from __future__ import annotations

import csv
import io
import json
import re
import sqlite3
import stat
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest

from bot.cli import main
from bot.exporting.cells import FORMULA_STARTS
from bot.exporting.tables import as_csv, as_json
from bot.voice.export_fields import FIELDS
from bot.voice.export_words import README
from storage.database import Database
from storage.everything import PERSONAL, TableRows
from storage.records import Blocked, ParcelKind, Person, RoundKind
from storage.schema import JOURNALLED
from tests.storage.given import NOW, admit, fill, letter

Rows = dict[str, list[tuple[object, ...]]]


def lived(database: Database, address: str) -> Person:
    """A person with something in every table, and a file among what they were sent."""
    person = admit(database, address)
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        entry = desk.journal.write("Filled", "k1")
        owed = desk.outbox.owe(letter("=1+1", address))
        desk.outbox.owe(replace(letter("Again", address), edits=owed.id, answers=entry.id))
        desk.outbox.owe(replace(letter("", address), kind=ParcelKind.FILE, file_name="x.png", file_bytes=bytes(range(256))))
        desk.taps.note(owed.id, 0, 0, entry.id)
        desk.rounds.plan(RoundKind.MORNING, "2026-03-02", NOW)
    with database.desk(person.id, NOW) as desk:
        desk.journal.undo(entry.id, "Undone", "k2")
    with database.desk(person.id, NOW) as desk:
        fill(desk)
        desk.journal.write("Filled again", "k3")
    return person


def everything(path: Path) -> Rows:
    """Every row of every table that holds rows of people, as it lies, with the storage class of each value."""
    with closing(sqlite3.connect(path)) as connection:
        found: Rows = {}
        for table in PERSONAL:
            columns = ", ".join(f'"{column.name}", typeof("{column.name}")' for column in table.columns)
            found[table.name] = sorted(connection.execute(f'SELECT {columns} FROM "{table.name}"'), key=repr)
    return found


@pytest.fixture
def exported(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Path:
    """The folder of an export of two people; from now on the database named is an empty one."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("WEEKWRIGHT_DATABASE", f"sqlite:///{tmp_path / 'first.sqlite'}")
    database = Database(f"sqlite:///{tmp_path / 'first.sqlite'}")
    lived(database, "terminal:me")
    lived(database, "telegram:4711")
    database.outbox.note_and_take([Blocked(0, "telegram:4711")], (), NOW)
    database.close()
    assert main(["export", str(tmp_path / "out")]) == 0
    monkeypatch.setenv("WEEKWRIGHT_DATABASE", f"sqlite:///{tmp_path / 'second.sqlite'}")
    capsys.readouterr()
    return tmp_path / "out"


def test_every_table_is_the_same_in_a_database_that_it_was_imported_into(exported: Path, tmp_path: Path) -> None:
    assert main(["import", str(exported)]) == 0

    first, second = everything(tmp_path / "first.sqlite"), everything(tmp_path / "second.sqlite")
    assert second == first
    assert all(first.values())


def test_what_was_done_before_can_still_be_undone_after(exported: Path, tmp_path: Path) -> None:
    main(["import", str(exported)])
    database = Database(f"sqlite:///{tmp_path / 'second.sqlite'}")
    person = database.people.find("terminal:me")
    assert person is not None
    with database.desk(person.id, NOW) as desk:
        latest = desk.journal.by_heard("k3")
        assert latest is not None
        desk.journal.undo(latest.id, "Undone", "k4")
        assert [each.name for each in desk.categories.all()] == ["workshop", "museum"]
    database.close()


def test_all_files_are_their_owners_alone(exported: Path) -> None:
    files = [path for path in exported.rglob("*") if path.is_file()]

    assert len(files) > 2 * 2 * len(PERSONAL)
    assert {stat.S_IMODE(path.stat().st_mode) for path in files} == {0o600}


def test_a_second_export_into_the_same_folder_is_refused(exported: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["import", str(exported)])
    capsys.readouterr()

    assert main(["export", str(exported)]) == 1
    assert "from another export; name a folder that is empty or new" in capsys.readouterr().err


def test_an_import_where_somebody_is_changes_nothing(exported: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["import", str(exported)])
    before = everything(tmp_path / "second.sqlite")
    capsys.readouterr()

    assert main(["import", str(exported)]) == 1
    assert capsys.readouterr().err.startswith("weekwright: there are people in that database already; it has to be an empty one")
    assert everything(tmp_path / "second.sqlite") == before


def rewritten(table: str, change: Callable[[list[dict[str, Any]]], object]) -> Callable[[Path], object]:
    """Changes the rows of one table of the export."""

    def spoil(folder: Path) -> None:
        path = folder / "person-1" / f"{table}.json"
        rows = json.loads(path.read_text("utf-8"))
        change(rows)
        path.write_text(json.dumps(rows), "utf-8")

    return spoil


def with_text(name: str, text: str) -> Callable[[Path], object]:
    return lambda folder: (folder / "person-1" / name).write_text(text, "utf-8")


def _without_name(folder: Path) -> None:
    for path in folder.rglob("export.json"):
        path.unlink()


def _without_tasks(folder: Path) -> None:
    (folder / "person-1" / "tasks.json").unlink()


def _copied(folder: Path) -> None:
    (folder / "again").mkdir()
    for path in (folder / "person-1").iterdir():
        (folder / "again" / path.name).write_bytes(path.read_bytes())


BROKEN: dict[str, tuple[Callable[[Path], object], str]] = {
    "no folder": (_without_name, "no export is there"),
    "newer": (with_text("export.json", '{"weekwright_export": 1, "schema": "9999", "person": 1}'), "a newer one may"),
    "no number": (with_text("export.json", '{"weekwright_export": 1, "schema": "0006", "person": true}'), "names no person"),
    "cut short": (with_text("stints.json", '[{"id": 1'), "stints.json: not JSON"),
    "deep": (with_text("stints.json", "[" * 100_000), "stints.json: not JSON"),
    "not a number": (with_text("stints.json", '[{"id": NaN}]'), "stints.json: not JSON"),
    "long number": (with_text("stints.json", f'[{{"id": {"9" * 5000}}}]'), "stints.json: not JSON"),
    "no rows": (with_text("stints.json", '{"id": 1}'), "not a list of rows"),
    "table gone": (_without_tasks, "tasks.json: No such file"),
    "other fields": (rewritten("tasks", lambda rows: rows[0].update(mood="fine")), "fields that are not this table's"),
    "someone else's": (rewritten("tasks", lambda rows: rows[0].update(person_id=2)), "of someone else"),
    "nobody": (rewritten("people", lambda rows: rows.clear()), "it must hold one person"),
    "nested": (rewritten("tasks", lambda rows: rows[0].update(title=["a"])), "more than one value"),
    "wrong type": (rewritten("tasks", lambda rows: rows[0].update(title=5)), "row 1 of tasks holds no title of ours"),
    "number as truth": (rewritten("tasks", lambda rows: rows[0].update(number=True)), "no number of ours"),
    "bad day": (rewritten("tasks", lambda rows: rows[0].update(day="2026-02-30")), "no day of ours"),
    "bad instant": (rewritten("stints", lambda rows: rows[0].update(starts="2026-03-02 05:00")), "no starts of ours"),
    "bad state": (rewritten("tasks", lambda rows: rows[0].update(state="asleep")), "no state of ours"),
    "bad list": (rewritten("stints", lambda rows: rows[0].update(task_ids="[" * 100_000)), "no task_ids of ours"),
    "nothing where something must be": (rewritten("tasks", lambda rows: rows[0].update(title=None)), "no title of ours"),
    "against a rule": (rewritten("tasks", lambda rows: rows[0].update(number=0)), "number"),
    "twice": (rewritten("tasks", lambda rows: rows.append(rows[0])), "UNIQUE"),
    "names what is not there": (rewritten("tasks", lambda rows: rows[0].update(category_id=99)), "that is not there"),
    "damaged bytes": (rewritten("parcels", lambda rows: rows[-1].update(file_bytes={"base64": "é"})), "bytes in it are damaged"),
    "undoes what is no table": (rewritten("journal_changes", lambda rows: rows[0].update(table="handled")), "no after of ours"),
    "undoes into other fields": (rewritten("journal_changes", lambda rows: rows[0].update(after='{"x": 1}')), "no after of ours"),
    "half a letter": (rewritten("tasks", lambda rows: rows[0].update(title="\ud800")), ""),
    "two of one": (_copied, "two exports of the same person"),
}


@pytest.mark.parametrize("how", BROKEN)
def test_a_broken_export_gives_one_sentence_and_writes_nothing(
    exported: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], how: str
) -> None:
    spoil, said = BROKEN[how]
    spoil(exported)

    assert main(["import", str(exported)]) == 1
    told = capsys.readouterr().err
    assert re.fullmatch(r"weekwright: [^\n]+\n", told)
    assert said in told
    if (tmp_path / "second.sqlite").exists():
        assert not any(everything(tmp_path / "second.sqlite").values())


def test_the_page_tells_of_every_field_and_of_no_other() -> None:
    told: dict[str, set[str]] = {}
    for line in FIELDS.strip().splitlines():
        if line.startswith("## "):
            told[line.removeprefix("## ")] = name = set()
        elif line.startswith("- "):
            field, meaning = line.removeprefix("- ").split(": ", 1)
            assert meaning
            name.add(field)

    assert told == {table.name: set(table.c.keys()) - {"id", "person_id"} for table in PERSONAL}
    assert "`person_id`" in README
    assert {table.name for table in JOURNALLED} <= set(told)


def test_a_spreadsheet_runs_nothing_and_json_keeps_what_was_said() -> None:
    said = (*(f"{start}cmd" for start in FORMULA_STARTS), 'two "quotes"', "line\nend", "")
    table = TableRows("stints", ("note", "minutes", "missing", "bytes"), tuple((each, -5, None, b"\x00") for each in said))

    head, *rows = csv.reader(io.StringIO(as_csv(table).decode("utf-8-sig"), newline=""))
    assert head == ["note", "minutes", "missing", "bytes"]
    assert not [row for row in rows if row[0].startswith(FORMULA_STARTS)]
    assert [row[0].removeprefix("'") for row in rows] == list(said)
    assert {tuple(row[1:]) for row in rows} == {("-5", "", "AA==")}
    assert [row["note"] for row in json.loads(as_json(table))] == list(said)


def test_nobody_is_exported_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    url = f"sqlite:///{tmp_path / 'first.sqlite'}"
    monkeypatch.setenv("WEEKWRIGHT_DATABASE", url)
    Database(url).close()

    assert main(["export", str(tmp_path / "out")]) == 0
    assert capsys.readouterr().out == "There is nobody to export yet.\n"


def test_an_archive_that_was_unpacked_is_an_export_too(exported: Path, tmp_path: Path) -> None:
    from bot.exporting.files import open_files, zipped

    database = Database(f"sqlite:///{tmp_path / 'first.sqlite'}")
    with database.look(1, NOW) as desk:
        archive = zipped(open_files(desk))
    database.close()
    with ZipFile(io.BytesIO(archive)) as opened:
        opened.extractall(tmp_path / "unpacked")

    assert main(["import", str(tmp_path / "unpacked")]) == 0
    assert len(everything(tmp_path / "second.sqlite")["people"]) == 1
