"""Long files: read beside all else, told of in one message, and never lost."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from bot.engine import READ_AT_ONCE
from bot.outside.calendars.progress import Progress
from bot.outside.calendars.reading import read_calendar
from bot.outside.geocoding import NoGeocoding
from bot.rounds import alarm
from bot.rounds.files import read_file
from bot.rounds.lookouts import Lookouts
from bot.rules.calendar_events import ReadCalendar
from storage.database import Database
from storage.records import ParcelKind, Person, Round, RoundKind
from tests.actions.test_calendars import calendar, event
from tests.stage import Stage

FIRST = date(2026, 3, 2)
MANY = 2500


def long_calendar() -> bytes:
    days = [FIRST + timedelta(days=number % 300) for number in range(MANY)]
    return calendar(*(event(f"u{number}", "Tour", f"{day:%Y%m%d}T1000", f"{day:%Y%m%d}T1100") for number, day in enumerate(days)))


@pytest.fixture
def stage(tmp_path: Path) -> Iterator[Stage]:
    made = Stage(tmp_path)
    yield made
    made.close()


@dataclass(frozen=True)
class Slow(Lookouts):
    """Reads two events, and then takes its time with the rest."""

    async def read_file(self, content: bytes, zone: str, days: tuple[date, date], progress: Progress) -> ReadCalendar:
        progress.events, progress.of = 1234, MANY
        await asyncio.sleep(0.05)
        return read_calendar(content, zone, *days)


def test_a_long_file_is_answered_at_once_and_read_by_a_round(stage: Stage) -> None:
    content = long_calendar()
    assert len(content) > READ_AT_ONCE
    assert stage.send("tours.ics", content).text == "Reading tours.ics."
    said = stage.tick()
    assert said.parcels[-1].text.split("\n")[0] == f"Read Museum: {MANY} events."
    assert {parcel.kind for parcel in said.parcels} == {ParcelKind.EDIT}
    assert said.labels == ["Undo"]
    assert "Tour" in stage.say("2026-03-05").text
    stage.tap("Undo")
    assert "Tour" not in stage.say("2026-03-05").text


def test_other_replies_are_answered_before_it_is_read(stage: Stage) -> None:
    stage.send("tours.ics", long_calendar())
    assert stage.say("1h museum").lines[0] == "Museum, Mon 2 Mar: 1 h"


def test_one_message_tells_how_far_the_reading_is(stage: Stage) -> None:
    stage.send("tours.ics", long_calendar())
    database, now = stage.house.database, stage.now
    (due,) = database.rounds.due(now, 10)
    lookouts = Slow(stage.skies, NoGeocoding(), stage.links, 0.02)
    asyncio.run(read_file(database, lookouts, database.people.get(due.person_id), due, now))
    first, *edits = stage.parcels()
    assert first.text == "Reading tours.ics."
    assert all(edit.edits == first.id for edit in edits)
    assert [edit.text.split("\n")[0] for edit in edits] == [
        f"Reading tours.ics: 1234 of about {MANY} events.",
        f"Read Museum: {MANY} events.",
    ]


def test_what_falls_due_while_it_is_read_is_not_held_up(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(alarm, "LOOK_SECONDS", 0.01)
    stage.send("tours.ics", long_calendar())
    told: list[str] = []

    async def read(_database: Database, _lookouts: Lookouts, _person: Person, due: Round, _now: datetime) -> None:
        stage.jump("2026-03-02 21:00")
        while not told and asyncio.get_running_loop().time() < until:
            await asyncio.sleep(0.01)
            told.extend(parcel.text.split("\n")[0] for parcel in stage.parcels()[2:])
        with stage.house.database.desk(stage.person_id, stage.now) as desk:
            desk.rounds.claim(due.id)

    stage.say("task order spokes 35m workshop")
    monkeypatch.setitem(alarm.ERRANDS, RoundKind.READING, read)
    until = time.monotonic() + 10
    stage.tick()
    assert told == ["Before Monday ends"]


def test_no_more_files_are_read_at_once_than_errands_may_be(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(alarm, "AT_ONCE", 2)
    monkeypatch.setattr(alarm, "LOOK_SECONDS", 0.01)
    most: list[int] = []
    under_way: set[int] = set()

    async def read(_database: Database, _lookouts: Lookouts, _person: Person, due: Round, _now: datetime) -> None:
        under_way.add(due.id)
        most.append(len(under_way))
        await asyncio.sleep(0.02)
        with stage.house.database.desk(stage.person_id, stage.now) as desk:
            desk.rounds.claim(due.id)
        under_way.remove(due.id)

    monkeypatch.setitem(alarm.ERRANDS, RoundKind.READING, read)
    for number in range(5):
        stage.send(f"tours {number}.ics", long_calendar())
    assert asyncio.run(stage.house.alarm.tick()) >= 5
    assert len(most) == 5
    assert max(most) == 2


def test_after_a_crash_the_file_is_read_all_the_same(stage: Stage) -> None:
    stage.send("tours.ics", long_calendar())
    stage.crash()
    assert stage.tick().parcels[-1].text.startswith(f"Read Museum: {MANY} events.")
    assert stage.look(lambda desk: desk.files.find("stage:me:1")) is None
    assert stage.tick().text == ""


def test_a_long_file_that_is_no_calendar_is_refused_in_one_sentence(stage: Stage) -> None:
    stage.send("tours.ics", b"x" * (READ_AT_ONCE + 1))
    assert stage.tick().text == "I find no calendar in tours.ics, so nothing changed."
