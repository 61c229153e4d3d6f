"""All that is kept of a person, as files that other programs open."""

from __future__ import annotations

import io
import json
from dataclasses import dataclass
from typing import Final
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from bot.exporting.about import ABOUT, FORMAT
from bot.exporting.calendar import as_calendar
from bot.exporting.tables import as_csv, as_json
from bot.voice.export_words import README
from storage.desk import Desk
from storage.schema import REVISIONS

EARLIEST: Final = (1980, 1, 1, 0, 0, 0)
"""The first moment that a ZIP archive can name: the same rows give the same bytes at any time."""


@dataclass(frozen=True, slots=True)
class OpenFile:
    """A file's name and content."""

    name: str
    content: bytes


def open_files(desk: Desk) -> tuple[OpenFile, ...]:
    """Every file of the export of the desk's person."""
    tables = desk.everything()
    about = {"weekwright_export": FORMAT, "schema": REVISIONS[-1], "person": desk.person.id}
    files = [
        OpenFile("README.md", README.encode()),
        OpenFile(ABOUT, (json.dumps(about, indent=1) + "\n").encode()),
        OpenFile("calendar.ics", as_calendar(desk.commitments.all(), desk.stints.all(), desk.categories.all(), desk.person.id, desk.now)),
    ]
    for table in tables:
        files += [OpenFile(f"{table.table}.csv", as_csv(table)), OpenFile(f"{table.table}.json", as_json(table))]
    return tuple(files)


def zipped(files: tuple[OpenFile, ...]) -> bytes:
    """The files in one ZIP archive."""
    made = io.BytesIO()
    with ZipFile(made, "w", ZIP_DEFLATED) as archive:
        for each in files:
            archive.writestr(ZipInfo(each.name, EARLIEST), each.content, ZIP_DEFLATED)
    return made.getvalue()
