"""What is in an export, field by field: the page that comes with it.

A table's heading is its name; below it, one line a field says what it means and in which unit.
"""

from __future__ import annotations

from typing import Final

from bot.voice.export_fields import FIELDS
from bot.voice.manners import hours_text, title_text

INTRODUCTION: Final = """# What Weekwright keeps of you

Each table is here twice: as JSON, which `weekwright import` reads back without loss, and as CSV for spreadsheets. In the CSV a cell that a
spreadsheet might run as a formula has an apostrophe before it; nothing else differs. `calendar.ics` has your commitments and the hours you
spent, for other calendars. `export.json` says who this is of and which version wrote it.

Instants are UTC, as 2026-03-02T05:00:00.000000Z. Days (2026-03-02) and times of day (06:30) are local to your zone. Lengths are whole
minutes. Yes and no are 1 and 0. An empty cell, null in JSON, says that there is nothing. Lists are JSON in a text. A field that ends in
`_id` names the row with that `id` in another table. `person_id` is yours in every table, and `id` numbers the rows of its table.
"""

README: Final = INTRODUCTION + FIELDS
"""The whole page, in Markdown."""


def stint_summary(category: str, minutes: int) -> str:
    """ "Workshop, 3 h 30"."""
    return f"{title_text(category)}, {hours_text(minutes)}"


def stint_description(note: str | None, break_minutes: int) -> str:
    """What the person said of the hours, and the break in them; empty when there is neither."""
    parts = [note or "", f"Break: {hours_text(break_minutes)}" if break_minutes else ""]
    return "\n".join(part for part in parts if part)
