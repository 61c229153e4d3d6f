"""A round happens once, at its instant, or is known to have been missed."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from storage.database import Database
from storage.errors import NotThere
from storage.records import Person, Round, RoundKind, RoundState
from storage.rounds import Rounds
from tests.storage.given import HOUR, NOW, GaveUpError, admit, work

MORNING, EVENING = RoundKind.MORNING, RoundKind.EVENING
DAY = timedelta(days=1)


def plan(database: Database, person: Person, kind: RoundKind = MORNING, key: str = "2026-03-02") -> Round:
    with database.desk(person.id, NOW) as desk:
        return desk.rounds.plan(kind, key, NOW + HOUR)


def test_a_round_is_planned_once_for_its_kind_and_key(database: Database, person: Person, other: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        first = desk.rounds.plan(MORNING, "2026-03-02", NOW, "detail")
        assert first == Round(first.id, person.id, MORNING, "2026-03-02", NOW, "detail")
        assert desk.rounds.plan(MORNING, "2026-03-02", NOW + HOUR) == first
        assert desk.rounds.plan(EVENING, "2026-03-02", NOW).id != first.id
        assert desk.rounds.find(MORNING, "2026-03-02") == first
        assert desk.rounds.find(MORNING, "2026-03-03") is None
    assert plan(database, other).person_id == other.id


def test_a_round_is_claimed_once(database: Database, person: Person) -> None:
    planned = plan(database, person)
    with database.desk(person.id, NOW) as desk:
        assert desk.rounds.claim(planned.id)
        assert not desk.rounds.claim(planned.id)
    with database.desk(person.id, NOW) as desk:
        assert not desk.rounds.claim(planned.id)
        assert desk.rounds.find(MORNING, planned.key) == replace(planned, state=RoundState.DONE, tries=1)
        assert desk.rounds.waiting(MORNING) == ()


def test_a_round_that_was_put_to_another_day_or_instant_is_not_claimed_as_what_it_was(database: Database, person: Person) -> None:
    planned = plan(database, person)
    for key, due in (("2026-03-09", planned.due), (planned.key, planned.due + HOUR)):
        with database.desk(person.id, NOW) as desk:
            moved = desk.rounds.replan(MORNING, key, due)
            assert not desk.rounds.claim_as_it_was(planned)
            assert desk.rounds.waiting(MORNING) == (moved,)
            assert desk.rounds.replan(MORNING, planned.key, planned.due) == planned
    with database.desk(person.id, NOW) as desk:
        assert desk.rounds.claim_as_it_was(planned)
        assert not desk.rounds.claim_as_it_was(planned)


def test_a_claim_that_was_not_kept_is_no_claim(database: Database, person: Person) -> None:
    planned = plan(database, person)
    with pytest.raises(GaveUpError):
        work(database, person, lambda desk: desk.rounds.claim(planned.id), give_up=True)
    with database.desk(person.id, NOW) as desk:
        assert desk.rounds.claim(planned.id)


def test_what_was_put_back_within_a_unit_of_work_is_no_longer_there(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        waiting = desk.rounds.plan(EVENING, "2026-03-02", NOW + HOUR)
        with suppress(GaveUpError), desk.attempt():
            desk.rounds.replan(EVENING, "2026-03-03", NOW + DAY)
            desk.rounds.plan(MORNING, "2026-03-02", NOW)
            assert [each.key for each in desk.rounds.waiting(EVENING)] == ["2026-03-03"]
            assert desk.rounds.find(MORNING, "2026-03-02") is not None
            raise GaveUpError
        assert desk.rounds.waiting(EVENING) == (waiting,)
        assert desk.rounds.find(MORNING, "2026-03-02") is None


def test_another_persons_round_is_not_there(database: Database, person: Person, other: Person) -> None:
    planned = plan(database, person)
    with database.desk(other.id, NOW) as desk:
        assert not desk.rounds.claim(planned.id)
        with pytest.raises(NotThere):
            desk.rounds.finish(planned.id, RoundState.MISSED)
        assert desk.rounds.waiting(MORNING) == ()
        assert desk.rounds.find(MORNING, planned.key) is None
    assert database.rounds.due(NOW + HOUR) == (planned,)


def test_a_round_may_end_as_missed(database: Database, person: Person) -> None:
    planned = plan(database, person)
    with database.desk(person.id, NOW) as desk:
        desk.rounds.claim(planned.id)
        desk.rounds.finish(planned.id, RoundState.MISSED)
        assert desk.rounds.find(MORNING, planned.key) == replace(planned, state=RoundState.MISSED, tries=1)


def test_the_waiting_round_of_a_kind_can_be_put_to_another_instant(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        made = desk.rounds.replan(MORNING, "2026-03-02", NOW + HOUR)
        moved = desk.rounds.replan(MORNING, "2026-03-02", NOW + 2 * HOUR)
        assert moved == replace(made, due=NOW + 2 * HOUR)
        next_day = desk.rounds.replan(MORNING, "2026-03-03", NOW + DAY)
        assert next_day == replace(made, key="2026-03-03", due=NOW + DAY)
        assert desk.rounds.waiting(MORNING) == (next_day,)


def test_a_round_that_is_over_is_not_planned_again(database: Database, person: Person) -> None:
    planned = plan(database, person)
    with database.desk(person.id, NOW) as desk:
        desk.rounds.claim(planned.id)
        waiting = desk.rounds.plan(MORNING, "2026-03-03", NOW + DAY)
        done = desk.rounds.replan(MORNING, planned.key, NOW + 2 * HOUR)
        assert done.state is RoundState.DONE
        assert desk.rounds.plan(MORNING, planned.key, NOW + 2 * HOUR) == done
        assert desk.rounds.waiting(MORNING) == (waiting,)


def test_what_is_due_comes_earliest_first_among_all_people(database: Database, person: Person, other: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        late = desk.rounds.plan(EVENING, "2026-03-02", NOW + 3 * HOUR)
        early = desk.rounds.plan(MORNING, "2026-03-02", NOW + HOUR)
    with database.desk(other.id, NOW) as desk:
        middle = desk.rounds.plan(MORNING, "2026-03-02", NOW + 2 * HOUR)
    assert database.rounds.next_due() == NOW + HOUR
    assert database.rounds.due(NOW) == ()
    assert database.rounds.due(NOW + 2 * HOUR) == (early, middle)
    assert database.rounds.due(NOW + DAY) == (early, middle, late)
    assert database.rounds.due(NOW + DAY, limit=1) == (early,)


def test_a_round_that_failed_waits_and_counts_its_try(database: Database, person: Person) -> None:
    planned = plan(database, person)
    database.rounds.later(planned.id, NOW + 2 * HOUR)
    assert database.rounds.due(NOW + 2 * HOUR) == (replace(planned, due=NOW + 2 * HOUR, tries=1),)
    with database.desk(person.id, NOW) as desk:
        desk.rounds.claim(planned.id)
    with pytest.raises(NotThere):
        database.rounds.later(planned.id, NOW + 3 * HOUR)
    assert database.rounds.next_due() is None


ACTS = st.sampled_from(["plan", "replan", "claim", "finish", "given up"])
STEPS = st.lists(st.tuples(ACTS, st.sampled_from("abc"), st.integers(0, 3)), max_size=10)


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS)
def test_what_a_desk_knows_of_rounds_is_what_the_database_has(database: Database, steps: list[tuple[str, str, int]]) -> None:
    person = admit(database, f"terminal:{len(database.people.all())}")
    with database.desk(person.id, NOW) as desk:
        for act, key, hours in steps:
            _act(desk.rounds, act, key, NOW + hours * HOUR)
            if act == "given up":
                with suppress(GaveUpError), desk.attempt():
                    _act(desk.rounds, "replan", key, NOW + hours * HOUR)
                    raise GaveUpError
            fresh = Rounds(desk._connection, person.id)
            assert desk.rounds.waiting(MORNING) == fresh.waiting(MORNING)
            assert [desk.rounds.find(MORNING, each) for each in "abc"] == [fresh.find(MORNING, each) for each in "abc"]


def _act(rounds: Rounds, act: str, key: str, due: datetime) -> None:
    known = rounds.find(MORNING, key)
    if act == "plan":
        rounds.plan(MORNING, key, due)
    elif act == "replan":
        rounds.replan(MORNING, key, due)
    elif act == "claim" and known:
        rounds.claim_as_it_was(replace(known, due=due))
    elif act == "finish" and known:
        rounds.finish(known.id, RoundState.MISSED)
