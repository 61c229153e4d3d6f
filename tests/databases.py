"""New databases of either kind, for tests that must hold on both.

WEEKWRIGHT_TEST_POSTGRESQL names a server by the URL of one of its databases,
as someone who may make others. Making one takes long beside most tests, so
that each process has one, which is emptied after each test.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from itertools import count
from pathlib import Path

import psycopg
import pytest
from sqlalchemy import make_url

from storage.database import Database
from storage.schema import metadata

SERVER = os.environ.get("WEEKWRIGHT_TEST_POSTGRESQL", "")
ON_A_SERVER = pytest.mark.skipif(not SERVER, reason="WEEKWRIGHT_TEST_POSTGRESQL names no PostgreSQL server")

FILE, POSTGRESQL = "sqlite", "postgresql"
KINDS = (FILE, pytest.param(POSTGRESQL, marks=ON_A_SERVER))

IN_A_FILE = pytest.mark.parametrize("database_kind", [FILE], indirect=True)
"""For tests of what only a file has."""

_NUMBERS = count()
_EMPTY = (
    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()",
    *(f'DELETE FROM "{each.name}"' for each in reversed(metadata.sorted_tables)),
    "SELECT setval(oid, 1, false) FROM pg_class WHERE relkind = 'S'",
)


@contextmanager
def new_url(kind: str, folder: Path) -> Iterator[str]:
    """The URL of a database without rows: a file that is not there yet, or one on the server that has its tables."""
    if kind == FILE:
        yield f"sqlite:///{folder / 'week.db'}"
        return
    name = _with_tables()
    try:
        yield url_of(name)
    finally:
        with psycopg.connect(url_of(name), autocommit=True) as connection:
            for statement in _EMPTY:
                connection.execute(statement.encode())


@contextmanager
def new_server_database() -> Iterator[str]:
    """The URL of a new database on the server, without tables and gone at the end."""
    name = _make()
    try:
        yield url_of(name)
    finally:
        _drop(name)


def drop_what_stays() -> None:
    """At the end of all tests."""
    if _with_tables.cache_info().currsize:
        _drop(_with_tables())


@cache
def _with_tables() -> str:
    name = _make()
    Database(url_of(name)).close()
    return name


def url_of(name: str) -> str:
    """That of a database of the server."""
    return make_url(SERVER).set(database=name).render_as_string(hide_password=False)


def _make() -> str:
    name = f"weekwright_{os.getpid()}_{next(_NUMBERS)}"
    _tell_server(f"CREATE DATABASE {name} TEMPLATE template0")
    return name


def _drop(name: str) -> None:
    _tell_server(f"DROP DATABASE {name} WITH (FORCE)")


def _tell_server(statement: str) -> None:
    with psycopg.connect(SERVER, autocommit=True) as connection:
        connection.execute(statement.encode())
