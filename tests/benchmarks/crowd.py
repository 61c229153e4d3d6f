"""A database with any number of people in it, quickly: one person's rows, as a short conversation made them, for everyone."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from bot.heard import Said
from bot.house import House
from storage.schema import JOURNALLED, journal_numbers, people, rounds
from tests.benchmarks.far_end import FIRST_PERSON

# A week with something on every day, and something for the planner to choose from.
WEEK = (
    *("museum shift every tue 13-17", "workshop shift every weekday 8-12", "choir every thursday 19:30-21:00 minor"),
    *("appt tomorrow 15:00 dentist", "routine exercise 30m every day 7-9", "routine clean the kitchen 45m every sat"),
    *("goal finish chapter 4 learning 3h", "target learning at least 5h", "task order spokes 30m workshop"),
    *("task oil the chains 45m", "task tomorrow write to the school 20m", "task tomorrow clean the shop window 30m", "2h workshop"),
)
COPIED = (*JOURNALLED, journal_numbers, rounds)


def address(number: int) -> str:
    """Of the person who joined as the so-manieth, from 1 on."""
    return f"telegram:{FIRST_PERSON + number - 1}"


def fill(house: House, path: Path, count: int) -> None:
    """Makes so many people on an empty database."""
    for number, text in enumerate(WEEK):
        house.engine.receive(Said(address(1), f"fill:{number}", f"fill:{number}", text))
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("BEGIN IMMEDIATE")
        # What the first was told is no part of it: it would be delivered.
        for table in ("parcels", "journal_changes", "journal_entries"):
            connection.execute(f"DELETE FROM {table}")
        connection.execute("CREATE TEMP TABLE numbers (i INTEGER)")
        connection.executemany("INSERT INTO numbers VALUES (?)", ((number,) for number in range(2, count + 1)))
        for copied in COPIED:
            connection.execute(_copying(copied.name, [column.name for column in copied.columns]))
        connection.execute("COMMIT")


def _copying(table: str, columns: list[str]) -> str:
    """Copies the first person's rows to all others. Ids that the database gives are left to it."""
    kept = [name for name in columns if not (table == rounds.name and name == "id")]
    if table == people.name:
        given = {"id": "numbers.i", "address": f"'telegram:' || ({FIRST_PERSON - 1} + numbers.i)"}
        owner = "id"
    else:
        given, owner = {"person_id": "numbers.i"}, "person_id"
    names = ", ".join(f'"{name}"' for name in kept)
    values = ", ".join(given.get(name, f'{table}."{name}"') for name in kept)
    return f"INSERT INTO {table} ({names}) SELECT {values} FROM {table} CROSS JOIN numbers WHERE {table}.{owner} = 1"
