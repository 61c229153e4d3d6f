"""Whatever was done, undoing it in reverse gives back every earlier state, and redoing gives back every later one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storage.database import Database
from storage.desk import Desk
from storage.errors import NameTaken, StillUsed
from storage.records import Category, Commitment, Goal, GoalState, Horizon, Routine, Running, Section, Stint, Target, Task, TaskState
from tests.storage.given import HOUR, MONDAY, NOW, admit, tables
from tests.storage.test_shelves import SHELVES, shelf

Act: TypeAlias = Callable[[Desk, int], object]

ADDITIONS: list[Act] = [
    lambda desk, n: desk.sections.add(Section(0, f"section {n}")),
    lambda desk, n: desk.categories.add(Category(0, f"category {n}", _section(desk, n), (f"alias {n}",))),
    lambda desk, n: desk.tasks.add(Task(0, "Wheel", MONDAY, desk.tasks.next_number(MONDAY), goal_id=_goal(desk))),
    lambda desk, n: desk.goals.add(Goal(0, "Alto part", Horizon.WEEK, MONDAY, _section(desk, n), origin_id=_goal(desk))),
    lambda desk, n: [desk.stints.add(Stint(0, each.id, MONDAY, n, NOW, NOW + HOUR)) for each in desk.categories.all()[-1:]],
    lambda desk, n: desk.commitments.add(Commitment(0, "Fair", NOW, NOW + HOUR, "UTC", major=n % 2 == 0)),
    lambda desk, n: desk.routines.add(Routine(0, "Stretching", n, "FREQ=DAILY", MONDAY)),
    lambda desk, n: [desk.targets.add(Target(0, each.id, MONDAY + timedelta(weeks=n), n)) for each in desk.categories.all()[:1]],
    lambda desk, n: desk.running.current() or [desk.running.add(Running(0, each.id, NOW)) for each in desk.categories.all()[:1]],
    lambda desk, n: desk.people.change(replace(desk.person, free_share=n, latitude=n / 7, longitude=-n / 3)),
]
CHANGES: list[Act] = [
    lambda desk, n: [desk.tasks.change(replace(task, state=TaskState.CLOSED, pushes=(MONDAY,))) for task in desk.tasks.all()[:n]],
    lambda desk, n: [desk.goals.change(replace(goal, state=GoalState.MET, carried=n)) for goal in desk.goals.all()[-1:]],
    lambda desk, n: [desk.stints.change(replace(stint, minutes=n, note="ø")) for stint in desk.stints.all()[-2:]],
    lambda desk, n: [desk.commitments.change(replace(each, except_days=(MONDAY,))) for each in desk.commitments.all()[-1:]],
]


def _section(desk: Desk, n: int) -> str:
    named = [section.name for section in desk.sections.all()]
    return named[n % len(named)] if named else desk.sections.add(Section(0, "personal")).name


def _goal(desk: Desk) -> int | None:
    goals = desk.goals.all()
    return goals[-1].id if goals else None


def _removal(name: str) -> Act:
    def remove(desk: Desk, n: int) -> None:
        for record in shelf(desk, name).all()[-1:]:
            shelf(desk, name).remove(record.id)

    return remove


ACTS = st.tuples(st.sampled_from([*ADDITIONS, *CHANGES, *map(_removal, SHELVES)]), st.integers(0, 9))
ENTRIES = st.lists(st.lists(ACTS, min_size=1, max_size=4), min_size=1, max_size=6)


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Database:
    """One database for all examples; each has a person of its own."""
    folder: Path = tmp_path_factory.mktemp("chains")
    return Database(f"sqlite:///{folder / 'week.db'}")


def do(database: Database, person_id: int, acts: list[tuple[Act, int]]) -> int:
    with database.desk(person_id, NOW) as desk:
        for act, n in acts:
            try:
                act(desk, n)
            except (StillUsed, NameTaken):
                continue
        return desk.journal.write("Did", "k").id


@settings(max_examples=40)
@given(entries=ENTRIES)
def test_a_chain_undone_in_reverse_gives_back_every_state(shared: Database, entries: list[list[tuple[Act, int]]]) -> None:
    person = admit(shared, f"terminal:{len(shared.people.all())}")
    states, done, undone = [tables(shared.path, person_id=person.id)], [], []
    for acts in entries:
        done.append(do(shared, person.id, acts))
        states.append(tables(shared.path, person_id=person.id))
    for step in reversed(range(len(done))):
        with shared.desk(person.id, NOW) as desk:
            undone.append(desk.journal.undo(done[step], "Undone", "k").id)
        assert tables(shared.path, person_id=person.id) == states[step]
    for step, entry_id in enumerate(reversed(undone), start=1):
        with shared.desk(person.id, NOW) as desk:
            desk.journal.undo(entry_id, "Redone", "k")
        assert tables(shared.path, person_id=person.id) == states[step]
