"""A stage on a Monday morning."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.databases import new_url
from tests.stage import Stage


@pytest.fixture
def url(database_kind: str, tmp_path: Path) -> Iterator[str]:
    """The URL of a database without rows."""
    with new_url(database_kind, tmp_path) as made:
        yield made


@pytest.fixture
def stage(tmp_path: Path, url: str) -> Iterator[Stage]:
    made = Stage(tmp_path, url=url)
    yield made
    made.close()
