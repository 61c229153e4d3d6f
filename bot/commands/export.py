"""``weekwright export DIR``: everything of everyone as open files, one folder a person."""

from __future__ import annotations

import argparse
import csv
import json
from pathlib import Path

from bot.commands.given import settings_given
from storage.database import Database
from storage.everything import TableRows


def main(given: argparse.Namespace) -> int:
    """Writes a CSV and a JSON file a table, and says where."""
    database = Database(settings_given().database_url)
    try:
        if not database.people.all():
            print("There is nobody to export yet.")
        for person in database.people.all():
            folder = given.folder / f"person-{person.id}"
            folder.mkdir(parents=True, exist_ok=True)
            for table in database.everything.of(person.id):
                _write(folder, table)
            print(f"{person.address}: {folder}")
    finally:
        database.close()
    return 0


def _write(folder: Path, table: TableRows) -> None:
    with (folder / f"{table.table}.csv").open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(table.columns)
        writer.writerows(table.rows)
    rows = [dict(zip(table.columns, row, strict=True)) for row in table.rows]
    (folder / f"{table.table}.json").write_text(json.dumps(rows, ensure_ascii=False, indent=1), "utf-8")
