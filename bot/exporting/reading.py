"""An export read back. It may hold anything: whatever is not an export as it was written is refused with what is wrong."""

from __future__ import annotations

import base64
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from bot.exporting.about import ABOUT, FORMAT, NoExport
from bot.exporting.tables import BASE64
from storage.everything import PERSONAL, TableRows
from storage.schema import REVISIONS


@dataclass(frozen=True, slots=True)
class ReadExport:
    """All the rows of one person."""

    person_id: int
    tables: tuple[TableRows, ...]


def read_exports(folder: Path) -> tuple[ReadExport, ...]:
    """The exports in ``folder``, or the one that it is. Raises NoExport."""
    found = [folder] if (folder / ABOUT).is_file() else sorted(path.parent for path in folder.glob(f"*/{ABOUT}"))
    if not found:
        raise NoExport(folder, f"no export is there: it would have a file {ABOUT}")
    exports = tuple(_read(each) for each in found)
    if len({each.person_id for each in exports}) < len(exports):
        raise NoExport(folder, "two exports of the same person")
    return exports


def _read(folder: Path) -> ReadExport:
    about = _loaded(folder / ABOUT)
    if not isinstance(about, dict) or about.get("weekwright_export") != FORMAT or about.get("schema") not in REVISIONS:
        raise NoExport(folder / ABOUT, "not of an export that this version can read; a newer one may")
    person = about.get("person")
    if not isinstance(person, int) or isinstance(person, bool):
        raise NoExport(folder / ABOUT, "it names no person")
    # A table that came later than the export has no rows in it.
    there = [each for each in PERSONAL if (folder / f"{each.name}.json").is_file() or about["schema"] == REVISIONS[-1]]
    tables = tuple(_table(folder / f"{each.name}.json", each.name, set(each.c.keys()), person) for each in there)
    if [len(each.rows) for each in tables if each.table == "people"] != [1]:
        raise NoExport(folder / "people.json", "it must hold one person")
    return ReadExport(person, tables)


def _table(path: Path, name: str, known: set[str], person: int) -> TableRows:
    rows = _loaded(path)
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise NoExport(path, "not a list of rows")
    columns = tuple(rows[0]) if rows else ()
    if any(tuple(row) != columns for row in rows) or not set(columns) <= known:
        raise NoExport(path, "its rows have fields that are not this table's")
    owner = "id" if name == "people" else "person_id"
    if any(row.get(owner) != person for row in rows):
        raise NoExport(path, "a row in it is of someone else")
    return TableRows(name, columns, tuple(tuple(_value(path, each) for each in row.values()) for row in rows))


def _value(path: Path, value: Any) -> Any:
    if not isinstance(value, dict | list):
        return value
    if isinstance(value, dict) and list(value) == [BASE64] and isinstance(value[BASE64], str):
        try:
            return base64.b64decode(value[BASE64], validate=True)
        except ValueError as error:
            raise NoExport(path, "bytes in it are damaged") from error
    raise NoExport(path, "a field in it holds more than one value")


def _loaded(path: Path) -> Any:
    try:
        return json.loads(path.read_text("utf-8"), parse_constant=_no_number)
    except OSError as error:
        raise NoExport(path, error.strerror or "it cannot be read") from error
    # Text of another encoding and text that is no JSON are ValueErrors; nesting without end is a RecursionError.
    except (ValueError, RecursionError) as error:
        raise NoExport(path, "not JSON") from error


def _no_number(name: str) -> NoReturn:
    raise ValueError(name)
