"""Several workers on one server: what each has in hand, and what becomes of it when one of them dies."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime

import pytest
from sqlalchemy import make_url

from storage import session
from storage.database import Database
from storage.errors import Busy, Locked, NoServer, Refused
from storage.handled import Handled
from storage.records import Blocked, Carried, Parcel, Person, PutOff, RoundKind
from tests.databases import ON_A_SERVER, POSTGRESQL
from tests.storage.given import HOUR, NOW, GaveUpError, letter, newcomer

pytestmark = ON_A_SERVER
QUICKLY = "-c lock_timeout=100ms"


@pytest.fixture
def database_kind() -> str:
    """All of this is of what only a server has."""
    return POSTGRESQL


@pytest.fixture
def rival(url: str, database: Database) -> Iterator[Database]:
    """Another worker on the same database, which does not wait long for anyone."""
    opened = Database(make_url(url).update_query_dict({"options": QUICKLY}).render_as_string(hide_password=False))
    yield opened
    opened.close()


def owe(database: Database, person: Person, *texts: str) -> tuple[Parcel, ...]:
    with database.desk(person.id, NOW) as desk:
        return tuple(desk.outbox.owe(letter(text, person.address)) for text in texts)


def test_one_program_that_asks_keeps_all_others_away_and_workers_share(database: Database, rival: Database, url: str) -> None:
    database.hold()
    with pytest.raises(Busy):
        rival.hold(shared=True)
    database.close()
    rival.hold(shared=True)
    third, fourth = Database(url), Database(url)
    third.hold(shared=True)
    with pytest.raises(Busy):
        fourth.hold()
    third.close()
    fourth.close()


def test_what_one_worker_has_in_hand_no_other_takes(database: Database, rival: Database, person: Person) -> None:
    first, second = owe(database, person, "1", "2")
    assert [each.id for each in database.outbox.note_and_take((), [first.id], NOW)] == [first.id]
    assert rival.outbox.note_and_take((), [first.id], NOW) == ()
    # Nor what comes after it at the same address.
    assert rival.outbox.note_and_take((), [second.id], NOW) == ()
    database.outbox.note_and_take([Carried(first.id, "m1")], (), NOW)
    assert rival.outbox.note_and_take((), [first.id], NOW) == ()
    assert [each.id for each in rival.outbox.note_and_take((), [second.id], NOW)] == [second.id]


def test_what_a_dead_worker_had_in_hand_is_free_and_known_to_be_tried(database: Database, rival: Database, person: Person) -> None:
    (owed,) = owe(database, person, "1")
    assert database.outbox.note_and_take((), [owed.id], NOW)
    assert rival.outbox.note_and_take((), [owed.id], NOW) == ()
    database.close()
    taken = rival.outbox.note_and_take((), [owed.id], NOW + HOUR)
    assert [each.tried for each in taken] == [NOW]


def test_what_was_put_off_by_one_worker_is_not_tried_by_another_before_its_time(
    database: Database, rival: Database, person: Person
) -> None:
    first, second = owe(database, person, "1", "2")
    database.outbox.note_and_take((), [first.id], NOW)
    database.outbox.note_and_take([PutOff(first.id, NOW + HOUR)], (), NOW)
    assert rival.outbox.note_and_take((), [first.id, second.id], NOW) == ()
    assert [each.id for each in rival.outbox.note_and_take((), [first.id], NOW + HOUR)] == [first.id]


def test_what_follows_a_blocked_message_is_out_of_every_workers_hands(database: Database, rival: Database, person: Person) -> None:
    first, second = owe(database, person, "1", "2")
    database.outbox.note_and_take((), [first.id], NOW)
    database.outbox.note_and_take([Blocked(first.id, person.address)], (), NOW)
    assert rival.outbox.note_and_take((), [second.id], NOW) == ()
    assert rival.outbox.waiting(0, 10) == ()


def test_one_persons_updates_come_one_after_another_and_those_of_two_side_by_side(
    database: Database, rival: Database, person: Person, other: Person
) -> None:
    with database.desk(person.id, NOW):
        with rival.desk(other.id, NOW) as theirs:
            assert theirs.person == other
        with pytest.raises(Locked), rival.desk(person.id, NOW):
            pass
        # Who only looks waits for nobody.
        with rival.look(person.id, NOW) as seen:
            assert seen.person == person


@pytest.mark.parametrize("kept", [True, False])
def test_a_key_that_two_workers_hear_at_once_is_handled_once(database: Database, url: str, kept: bool) -> None:
    other = Database(url)

    def hear_at_once() -> bool:
        with ThreadPoolExecutor(1) as beside:
            with database._connections.writing() as connection:
                assert Handled(connection, NOW).first_time("u1")
                later = beside.submit(other.handled.first_time, "u1", NOW)
                if not kept:
                    raise GaveUpError
            return later.result()

    if kept:
        assert not hear_at_once()
    else:
        with pytest.raises(GaveUpError):
            hear_at_once()
        assert not other.handled.first_time("u1", NOW)
    other.close()


def test_rounds_of_a_person_at_another_workers_desk_are_left_for_later(
    database: Database, rival: Database, person: Person, other: Person
) -> None:
    due = tuple(plan(database, each, NOW) for each in (person, other))
    with database.desk(person.id, NOW), rival.desks() as desks:
        assert [each.person_id for each in desks.still_due(rival.rounds.due(NOW))] == [other.id]
    with rival.desks() as desks:
        assert len(desks.still_due(rival.rounds.due(NOW))) == len(due)
        with database.desks() as others:
            assert others.still_due(database.rounds.due(NOW)) == ()


def plan(database: Database, person: Person, due: datetime) -> int:
    with database.desk(person.id, NOW) as desk:
        return desk.rounds.plan(RoundKind.MORNING, "2026-03-02", due).id


def test_an_errand_is_in_one_workers_hands(database: Database, rival: Database) -> None:
    with database.rounds.in_hand(7) as mine, rival.rounds.in_hand(7) as theirs:
        assert (mine, theirs) == (True, False)
    with rival.rounds.in_hand(7) as theirs:
        assert theirs


def test_a_server_that_lets_go_of_us_is_said_and_all_goes_on_with_the_hold_taken_again(
    database: Database, rival: Database, person: Person
) -> None:
    database.hold()
    with database.desk(person.id, NOW):
        pass
    cut_off(rival)
    with pytest.raises(NoServer), database.desk(person.id, NOW):
        pass
    with database.desk(person.id, NOW) as desk:
        assert desk.person == person
    with pytest.raises(NoServer):
        database.outbox.note_and_take((), [1], NOW)
    assert database.outbox.note_and_take((), [1], NOW) == ()
    with pytest.raises(Busy):
        rival.hold()


def cut_off(rival: Database) -> None:
    """Ends every session but the rival's."""
    with rival._connections.defining() as connection:
        connection.exec_driver_sql(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()"
        )


def test_two_workers_that_lock_each_other_out_are_told_to_try_again(database: Database, url: str, person: Person, other: Person) -> None:
    another = Database(url)
    with ThreadPoolExecutor(1) as beside, pytest.raises(Locked):
        _embrace(database, another, person, other, beside)
    another.close()


def _embrace(database: Database, another: Database, person: Person, other: Person, beside: ThreadPoolExecutor) -> None:
    with database.desks() as ours, ours.desk(person.id, NOW), another.desks() as theirs, theirs.desk(other.id, NOW):

        def cross() -> None:
            with theirs.desk(person.id, NOW):
                pass

        crossing = beside.submit(cross)
        with ours.desk(other.id, NOW):
            pass
        crossing.result()


def test_numbers_of_locks_fit_and_differ() -> None:
    spaces = [session.space(table) for table in ("program", "tables", "parcels", "rounds")]
    assert len(set(spaces)) == len(spaces)
    assert all(-(1 << 31) <= each < 1 << 31 for each in spaces)


def test_the_address_of_a_new_person_goes_to_one_of_two_workers(database: Database, rival: Database) -> None:
    database.people.admit(newcomer("telegram:7"))
    with pytest.raises(Refused):
        rival.people.admit(newcomer("telegram:7"))
