"""A database in a folder of its own, and the person who uses it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from storage.database import Database
from storage.records import Person
from tests.storage.given import admit


@pytest.fixture
def url(tmp_path: Path) -> str:
    """The URL of a file that is not there yet."""
    return f"sqlite:///{tmp_path / 'week.db'}"


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
