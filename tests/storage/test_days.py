"""What was read of many days answers for fewer, and never for what was written since."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storage.connections import Connection, Found
from storage.database import Database
from storage.records import Stint
from storage.statements import Statement
from tests.storage.given import MONDAY, NOW, admit

SPANS = st.tuples(st.integers(-30, 30), st.integers(0, 40)).map(
    lambda span: (MONDAY + timedelta(days=span[0]), MONDAY + timedelta(days=span[0] + span[1]))
)
WRITES = st.integers(-30, 60).map(lambda shift: MONDAY + timedelta(days=shift))


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Database:
    """One database for all examples; each has a person of its own."""
    folder: Path = tmp_path_factory.mktemp("days")
    return Database(f"sqlite:///{folder / 'week.db'}")


@settings(max_examples=60)
@given(steps=st.lists(SPANS | WRITES, min_size=2, max_size=10))
def test_spans_asked_one_after_another_give_what_each_would_alone(shared: Database, steps: list[tuple[date, date] | date]) -> None:
    person = admit(shared, f"terminal:{len(shared.people.all())}")
    kept: list[Stint] = []
    with shared.desk(person.id, NOW) as desk:
        for step in steps:
            if isinstance(step, tuple):
                first, last = step
                assert sorted(desk.stints.between(first, last), key=lambda each: each.id) == [s for s in kept if first <= s.day <= last]
            else:
                kept.append(desk.stints.add(Stint(0, 1, step, 30)))
        desk.journal.write("Logged", "k")


def test_a_day_after_its_week_is_not_read_again(database: Database, monkeypatch: pytest.MonkeyPatch) -> None:
    person, read = admit(database, "terminal:1"), list[Statement]()
    execute = Connection.execute

    def noted(self: Connection, statement: Statement, given: Mapping[str, Any]) -> Found:
        read.append(statement)
        return execute(self, statement, given)

    monkeypatch.setattr(Connection, "execute", noted)
    with database.desk(person.id, NOW) as desk:
        read.clear()
        desk.stints.between(MONDAY, MONDAY + timedelta(days=6))
        desk.stints.on(MONDAY + timedelta(days=2))
        desk.stints.between(MONDAY + timedelta(days=1), MONDAY + timedelta(days=3))
        assert len(read) == 1
        desk.stints.on(MONDAY - timedelta(days=1))
        assert len(read) == 2


def test_the_first_and_the_last_day_there_are_can_be_asked_for(database: Database) -> None:
    with database.desk(admit(database, "terminal:1").id, NOW) as desk:
        assert desk.stints.between(date.min, date.max) == ()
        assert desk.tasks.on(date.max) == ()
