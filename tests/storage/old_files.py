"""Files as an older program would have left them: at any revision, with rows in every table that it had."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from sqlalchemy.types import TypeEngine

from storage.migrating import upgrade
from storage.pay_types import Money
from storage.schema import metadata
from storage.sqlite import make_private, open_engine
from storage.types import Choice, Flag, Kept, Listed, LocalDay, TimeOfDay, UtcInstant

PEOPLE = (1, 2)
LATER = {"ends": "2026-03-02T07:00:00.000000Z", "last": "2026-03-08"}
"""What has to come after what stands beside it."""

SPECIAL = {"zone": "Europe/Brussels", "rule": "FREQ=DAILY", "latitude": 51.05, "longitude": 3.72, "free_share": 20}
Row = dict[str, Any]


def file_at(path: Path, revision: str) -> dict[str, list[Row]]:
    """Makes the file with the tables of ``revision`` and rows for two people in each of them; gives all rows by table."""
    make_private(path)
    engine = open_engine(path, foreign_keys=False)
    with engine.begin() as transaction:
        upgrade(transaction, revision)
    engine.dispose()
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("PRAGMA foreign_keys = ON")
        for table in _in_order(connection):
            for person in PEOPLE:
                _fill(connection, table, person)
    return rows_in(path)


def rows_in(path: Path) -> dict[str, list[Row]]:
    """Every row of every table but the version's, by column."""
    with closing(sqlite3.connect(path)) as connection:
        connection.row_factory = sqlite3.Row
        return {table: [dict(row) for row in connection.execute(f'SELECT * FROM "{table}" ORDER BY 1, 2')] for table in _tables(connection)}


def _tables(connection: sqlite3.Connection) -> list[str]:
    found = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    return [name for (name,) in found if not name.startswith("sqlite_") and name != "alembic_version"]


def _references(connection: sqlite3.Connection, table: str) -> list[tuple[str, str, str]]:
    """Each column that names another row: the column, the table and the column it names."""
    return [(row[3], row[2], row[4]) for row in connection.execute(f'PRAGMA foreign_key_list("{table}")')]


def _in_order(connection: sqlite3.Connection) -> list[str]:
    """The tables, each after those that it names."""
    left, ordered = _tables(connection), list[str]()
    while left:
        ready = [table for table in left if {named for _, named, _ in _references(connection, table)} <= {*ordered, table}]
        assert ready, f"{left} name each other"
        ordered += ready
        left = [table for table in left if table not in ready]
    return ordered


def _fill(connection: sqlite3.Connection, table: str, person: int) -> None:
    if table == "pairing" and person != PEOPLE[0]:
        return
    columns = [(row[1], row[2]) for row in connection.execute(f'PRAGMA table_info("{table}")')]
    row = {name: _value(table, name, kind, person) for name, kind in columns}
    for column, named, key in _references(connection, table):
        if column != "person_id":
            # A row that may name one of its own kind names itself.
            row[column] = row[key] if named == table else _parent(connection, named, key, person)
    names = ", ".join(f'"{name}"' for name in row)
    connection.execute(f'INSERT INTO "{table}" ({names}) VALUES ({", ".join("?" * len(row))})', tuple(row.values()))


def _parent(connection: sqlite3.Connection, table: str, key: str, person: int) -> Any:
    return connection.execute(f'SELECT "{key}" FROM "{table}" WHERE person_id = ?', (person,)).fetchone()[0]


def _value(table: str, column: str, kind: str, person: int) -> Any:
    if column in SPECIAL:
        return SPECIAL[column]
    known = metadata.tables.get(table)
    type_ = known.c[column].type if known is not None and column in known.c else None
    if column in LATER and isinstance(type_, UtcInstant | LocalDay):
        return LATER[column]
    if column in ("id", "person_id"):
        return {"pairing": 1, "erased": 100 + person}.get(table, person)
    return _of_type(type_, kind, f"{table} {column} {person}")


def _of_type(type_: TypeEngine[Any] | None, kind: str, text: str) -> Any:
    if isinstance(type_, UtcInstant):
        return "2026-03-02T05:00:00.000000Z"
    if isinstance(type_, LocalDay):
        return "2026-03-02"
    if isinstance(type_, TimeOfDay):
        return "06:30"
    if isinstance(type_, Choice):
        return type_.keep(next(iter(type_.choices.__members__.values())))
    if isinstance(type_, Listed):
        return "[]"
    if isinstance(type_, Flag) or kind == "INTEGER":
        return 1
    if isinstance(type_, Money):
        return "14.50"
    if isinstance(type_, Kept):
        return None
    return {"FLOAT": 1.5, "BLOB": b"\0bytes"}.get(kind, text)
