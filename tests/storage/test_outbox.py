"""What is owed is told once, in order, and to nobody else."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storage.database import Database
from storage.errors import NotThere, Refused, Unkeepable
from storage.records import Button, Carried, Parcel, ParcelKind, ParcelState, Person, PutOff, SetAside, Tap, Waiting
from tests.storage.given import HOUR, NOW, GaveUpError, admit, letter, still_owed, work

BUTTONS = ((Button("Close 1", '{"kind":"close"}', True), Button("Push 1", "{}", True)), (Button("Undo", "{}"),))


def owe(database: Database, person: Person, *parcels: Parcel) -> list[Parcel]:
    with database.desk(person.id, NOW) as desk:
        return [desk.outbox.owe(parcel) for parcel in parcels]


def test_a_parcel_comes_back_with_every_field(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        entry = desk.journal.write("Logged", "k1")
        first = desk.outbox.owe(letter("Hello"))
        wanted = replace(
            letter("Your week"),
            kind=ParcelKind.FILE,
            bold=((0, 4), (5, 9)),
            buttons=BUTTONS,
            silent=True,
            round="recap",
            file_name="week.png",
            file_bytes=b"\x89PNG\x00",
            edits=first.id,
            answers=entry.id,
            not_before=NOW,
            tries=2,
            carried_as="77",
        )
        kept = desk.outbox.owe(wanted)
        assert kept == replace(wanted, id=kept.id, person_id=person.id)
    with database.desk(person.id, NOW) as desk:
        assert desk.outbox.get(kept.id) == kept
    assert database.outbox.get(kept.id) == kept


def test_a_parcel_is_owed_only_if_what_it_tells_of_is_kept(database: Database, person: Person) -> None:
    with pytest.raises(GaveUpError):
        work(database, person, lambda desk: desk.outbox.owe(letter("Logged")), give_up=True)
    assert still_owed(database) == ()
    assert database.outbox.next_due(NOW) is None


def test_what_is_owed_comes_in_order_of_writing_and_is_over_once_sent(database: Database, person: Person) -> None:
    first, second, third = owe(database, person, letter("1"), letter("2"), letter("3"))
    assert still_owed(database) == (first, second, third)
    assert database.outbox.next_due(NOW) == NOW
    database.outbox.note_and_take([Carried(first.id, "101")], (), NOW)
    database.outbox.note_and_take([SetAside(second.id, "chat not found")], (), NOW)
    assert still_owed(database) == (third,)
    assert database.outbox.get(first.id) == replace(first, state=ParcelState.SENT, carried_as="101")
    assert database.outbox.get(second.id).state is ParcelState.ASIDE


def test_one_that_must_wait_holds_up_the_later_ones_to_its_address_only(database: Database, person: Person) -> None:
    before, held, behind, elsewhere = owe(database, person, letter("1"), letter("2"), letter("3"), letter("4", "terminal:other"))
    database.outbox.note_and_take([PutOff(held.id, NOW + HOUR)], (), NOW)
    for ready in (before, elsewhere):
        assert database.outbox.next_due(NOW) == NOW
        database.outbox.note_and_take([Carried(ready.id, "1")], (), NOW)
    assert database.outbox.next_due(NOW) == NOW + HOUR
    assert still_owed(database) == (replace(held, not_before=NOW + HOUR), behind)


@settings(max_examples=30)
@given(waits=st.lists(st.tuples(st.sampled_from(["a", "b"]), st.none() | st.integers(0, 60)), max_size=7))
def test_looking_again_when_told_to_misses_nothing(shared: Database, waits: list[tuple[str, int | None]]) -> None:
    person = admit(shared, f"terminal:{len(shared.people.all())}")
    to = {address: f"terminal:{address} of {person.id}" for address in "ab"}
    left = owe(shared, person, *(replace(letter("x", to[name]), not_before=_in_minutes(wait)) for name, wait in waits))
    now = NOW
    while left:
        ready = [parcel for parcel in left if not any(_holds_up(each, parcel, now) for each in left)]
        due = shared.outbox.next_due(now)
        assert due is not None
        assert (due == now) if ready else (now < due <= min(each.not_before for each in left if each.not_before and each.not_before > now))
        for parcel in ready:
            shared.outbox.note_and_take([Carried(parcel.id, "x")], (), now)
        left, now = [parcel for parcel in left if parcel not in ready], due
    assert shared.outbox.next_due(now) is None


def _in_minutes(wait: int | None) -> datetime | None:
    return None if wait is None else NOW + timedelta(minutes=wait)


def test_a_wait_that_a_clock_put_back_made_long_is_over(database: Database, person: Person) -> None:
    (held,) = owe(database, person, letter("1"))
    database.outbox.note_and_take([PutOff(held.id, NOW + timedelta(minutes=30))], (), NOW)
    assert database.outbox.next_due(NOW - timedelta(minutes=29)) == NOW + timedelta(minutes=30)
    before = NOW - timedelta(days=30)
    assert database.outbox.next_due(before) == before


def _holds_up(ahead: Parcel, parcel: Parcel, now: datetime) -> bool:
    waits = ahead.not_before is not None and ahead.not_before > now
    return waits and ahead.address == parcel.address and ahead.id <= parcel.id


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Database:
    return Database(f"sqlite:///{tmp_path_factory.mktemp('outbox') / 'week.db'}")


def test_a_reply_to_a_message_finds_its_parcel_for_its_own_person_only(database: Database, person: Person, other: Person) -> None:
    (sent,) = owe(database, person, letter("Logged"))
    database.outbox.note_and_take([Carried(sent.id, "101")], (), NOW)
    with database.desk(person.id, NOW) as desk:
        found = desk.outbox.by_carried_as("101")
        assert found is not None
        assert found.id == sent.id
        assert desk.outbox.by_carried_as("102") is None
    with database.desk(other.id, NOW) as desk:
        assert desk.outbox.by_carried_as("101") is None
        assert desk.outbox.find(sent.id) is None
        with pytest.raises(NotThere):
            desk.outbox.get(sent.id)
        with pytest.raises(NotThere):
            desk.outbox.change(sent)


def test_the_latest_parcel_is_the_one_owed_last_to_this_person(database: Database, person: Person, other: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        assert desk.outbox.latest() is None
    _, last = owe(database, person, letter("1"), letter("2"))
    owe(database, other, letter("3"))
    with database.desk(person.id, NOW) as desk:
        assert desk.outbox.latest() == last


def test_a_parcel_may_be_changed_by_its_person(database: Database, person: Person) -> None:
    (owed,) = owe(database, person, letter("No forecast"))
    with database.desk(person.id, NOW) as desk:
        changed = desk.outbox.change(replace(owed, text="Sunny", buttons=BUTTONS))
        assert desk.outbox.get(owed.id) == changed


def test_an_edit_may_be_owed_before_what_it_rewrites_was_sent(database: Database, person: Person) -> None:
    first, rewrite = owe(database, person, letter("No forecast"), replace(letter("Sunny"), kind=ParcelKind.EDIT, edits=1))
    assert rewrite.edits == first.id
    assert still_owed(database) == (first, rewrite)


def test_a_parcel_cannot_rewrite_another_persons(database: Database, person: Person, other: Person) -> None:
    (theirs,) = owe(database, person, letter("Logged"))
    with pytest.raises(Refused):
        owe(database, other, replace(letter("Forged"), edits=theirs.id))


def test_a_parcel_that_is_not_there_cannot_be_sent(database: Database) -> None:
    with pytest.raises(NotThere):
        database.outbox.get(9)
    assert database.outbox.note_and_take((), [9], NOW) == ()


def test_what_became_of_a_parcel_that_is_gone_keeps_nothing_else_from_being_noted(database: Database, person: Person) -> None:
    (owed,) = owe(database, person, letter("1"))
    database.outbox.note_and_take([Carried(9, "1"), PutOff(9, NOW), SetAside(9, "gone"), Carried(owed.id, "2")], (), NOW)
    assert database.outbox.get(owed.id).carried_as == "2"


def test_what_waits_is_told_in_order_from_an_id_on(database: Database, person: Person) -> None:
    sent, first, second = owe(database, person, letter("1"), letter("2"), replace(letter("3", "terminal:3"), round="morning"))
    database.outbox.note_and_take([Carried(sent.id, "1"), PutOff(first.id, NOW + HOUR)], (), NOW)
    waiting = Waiting(first.id, first.address, None, NOW + HOUR), Waiting(second.id, second.address, "morning")
    assert database.outbox.waiting(0, 10) == waiting
    assert database.outbox.waiting(0, 1) == waiting[:1]
    assert database.outbox.waiting(first.id, 10) == waiting[1:]
    taken = database.outbox.note_and_take((), [sent.id, second.id], NOW)
    assert [parcel.id for parcel in taken] == [second.id]


def test_what_is_taken_is_known_to_be_tried_until_its_end_is_noted(database: Database, person: Person) -> None:
    (owed,) = owe(database, person, letter("1"))
    assert database.outbox.note_and_take((), [owed.id], NOW) == (owed,)
    assert database.outbox.get(owed.id) == replace(owed, tries=1, tried=NOW)
    database.outbox.note_and_take([PutOff(owed.id, NOW + HOUR)], (), NOW)
    assert database.outbox.get(owed.id) == replace(owed, tries=1, not_before=NOW + HOUR)
    database.outbox.note_and_take([PutOff(owed.id, NOW + HOUR, NOW)], (), NOW)
    assert database.outbox.get(owed.id).tried == NOW


def test_a_time_without_an_offset_is_refused(database: Database) -> None:
    with pytest.raises(Unkeepable):
        database.outbox.next_due(datetime(2026, 3, 2))


def test_a_taken_button_is_remembered_with_its_newest_entry(database: Database, person: Person, other: Person) -> None:
    (sent,) = owe(database, person, replace(letter("Tasks"), buttons=BUTTONS))
    with database.desk(person.id, NOW) as desk:
        assert desk.taps.of(sent.id) == ()
        desk.taps.note(sent.id, 1, 0, None)
        first, second = desk.journal.write("Closed 1", "t1"), desk.journal.write("Closed 1", "t2")
        desk.taps.note(sent.id, 0, 0, first.id)
        desk.taps.note(sent.id, 0, 0, second.id)
    with database.desk(person.id, NOW) as desk:
        assert desk.taps.of(sent.id) == (Tap(sent.id, 0, 0, second.id), Tap(sent.id, 1, 0, None))
    with database.desk(other.id, NOW) as desk:
        assert desk.taps.of(sent.id) == ()
    with pytest.raises(Refused), database.desk(other.id, NOW) as desk:
        desk.taps.note(sent.id, 0, 1, None)
