"""Files made in a process of its own are those that are made here; one that dies or fails is told."""

from __future__ import annotations

import asyncio
import signal
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import TypeVar

import pytest

from bot.actions.enclosures import NothingEnclosed, TooLarge
from bot.apart.outcomes import Died, TooSlow
from bot.apart.process import Apart
from bot.rounds.making import apart, here
from bot.rounds.studio import Studio
from bot.voice.picture_words import NOT_MADE, TOO_LARGE
from storage.errors import Locked, NotThere
from storage.records import Parcel, ParcelKind
from tests.databases import new_url
from tests.stage import Stage

Given = TypeVar("Given")


@pytest.fixture
def stage(database_kind: str, tmp_path: Path) -> Iterator[Stage]:
    with new_url(database_kind, tmp_path) as url:
        stage = Stage(tmp_path, url=url)
        yield stage
        stage.close()


class Failing(Apart):
    """A process that fails each work in the same way."""

    def __init__(self, failure: Exception) -> None:
        super().__init__()
        self._failure = failure

    def run(self, work: Callable[..., Given], *values: object) -> Given:
        raise self._failure


def owed(stage: Stage) -> Parcel:
    """A parcel that encloses a picture of a week with hours in it."""
    stage.say("3h workshop")
    (parcel,) = stage.say("week picture").parcels
    return parcel


def test_a_picture_and_errors_that_are_the_same_wherever_they_are_made(stage: Stage) -> None:
    parcel = owed(stage)
    process = Apart(60)
    elsewhere = apart(stage.url, process)
    try:
        wanted = (parcel.encloses or "", stage.person_id, parcel.written)
        picture = elsewhere(*wanted)
        assert picture == here(stage.house.database)(*wanted)
        assert picture.startswith(b"\x89PNG")
        with pytest.raises(NothingEnclosed):
            elsewhere('{"is":"Show","what":"week"}', stage.person_id, parcel.written)
        with pytest.raises(NotThere) as caught:
            elsewhere(parcel.encloses or "", 4711, parcel.written)
        assert (caught.value.table, caught.value.id) == ("people", 4711)
    finally:
        process.close()


@pytest.mark.parametrize(
    ("failure", "told"), [(Died("file_from", -signal.SIGSEGV), NOT_MADE), (TooSlow("file_from", 120), NOT_MADE), (TooLarge(), TOO_LARGE)]
)
def test_a_process_that_dies_or_hangs_is_told_in_words_and_holds_up_nothing(
    tmp_path: Path, failure: Exception, told: str, caplog: pytest.LogCaptureFixture
) -> None:
    stage = Stage(tmp_path)
    parcel = owed(stage)
    filled = asyncio.run(Studio(apart(stage.url, Failing(failure))).fill(parcel))
    stage.close()

    assert (filled.kind, filled.file_name, filled.file_bytes) == (ParcelKind.MESSAGE, None, None)
    assert filled.text == f"{parcel.text}\n{told}"
    assert f"the file of parcel {parcel.id} was not made: {type(failure).__name__}" in caplog.text


def test_a_database_that_is_locked_for_the_process_is_tried_again(tmp_path: Path) -> None:
    stage = Stage(tmp_path)
    studio = Studio(apart(stage.url, Failing(Locked(stage.path, "busy"))))
    with pytest.raises(Locked):
        asyncio.run(studio.fill(owed(stage)))
    stage.close()


def test_the_process_reads_what_was_there_when_the_parcel_was_written(tmp_path: Path) -> None:
    """The look is asked for as of that moment, wherever the file is made."""
    stage = Stage(tmp_path)
    parcel = owed(stage)
    asked: list[tuple[str, int, datetime]] = []

    def make(encloses: str, person_id: int, written: datetime) -> bytes:
        asked.append((encloses, person_id, written))
        return b"drawn"

    filled = asyncio.run(Studio(make).fill(parcel))
    stage.close()
    assert asked == [(parcel.encloses, parcel.person_id, parcel.written)]
    assert filled.file_bytes == b"drawn"
