"""A database of its own, of either kind, and the person who uses it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from storage.database import Database
from storage.records import Person
from tests.databases import new_url
from tests.storage.given import admit


@pytest.fixture
def url(database_kind: str, tmp_path: Path) -> Iterator[str]:
    """The URL of a database without rows."""
    with new_url(database_kind, tmp_path) as made:
        yield made


@pytest.fixture
def database(url: str) -> Iterator[Database]:
    """A new database."""
    opened = Database(url)
    yield opened
    opened.close()


@pytest.fixture
def person(database: Database) -> Person:
    """Who the tests are about."""
    return admit(database, "terminal:me")


@pytest.fixture
def other(database: Database) -> Person:
    """Someone else, whose rows must stay out of reach."""
    return admit(database, "terminal:someone else")
