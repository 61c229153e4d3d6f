"""Two thousand updates that mean no good: nothing is raised, and every message is one that Telegram takes."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.engine.ordeal import endure
from tests.untraced import untraced


@pytest.mark.parametrize("seed", range(7))
def test_hostile_updates_raise_nothing_and_every_answer_can_be_sent(tmp_path: Path, seed: int) -> None:
    with untraced():
        assert endure(tmp_path, seed, updates=250) > 100


def test_nor_do_they_on_either_kind_of_database(tmp_path: Path, url: str) -> None:
    with untraced():
        assert endure(tmp_path, 7, updates=250, url=url) > 100
