"""Files are made when they are carried, and made again after a crash."""

from __future__ import annotations

import asyncio
import io
import json
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from zipfile import ZipFile

import pytest
from PIL import Image
from pypdf import PdfReader

from bot.actions import enclosures
from bot.pictures.palette import PALETTES
from bot.rounds.pace import UNLIMITED, Pace
from bot.rounds.postman import Postman
from bot.voice.picture_words import NOT_MADE, TOO_LARGE
from storage.records import Look, Parcel, ParcelKind
from tests.stage import Stage


@pytest.fixture
def stage(tmp_path: Path) -> Iterator[Stage]:
    stage = Stage(tmp_path)
    yield stage
    stage.close()


class Doorstep:
    """Keeps what was carried."""

    def __init__(self) -> None:
        self.left: list[Parcel] = []

    async def carry(self, parcel: Parcel, rewrites: str | None) -> str:
        self.left.append(parcel)
        return str(parcel.id)


def carried(stage: Stage) -> list[Parcel]:
    """All that is owed, as it is carried."""
    doorstep = Doorstep()
    post = stage.house.database.outbox
    asyncio.run(Postman(post, doorstep, lambda: stage.now, Pace(UNLIMITED, UNLIMITED), fill=stage.house.studio.fill).deliver_due())
    return doorstep.left


@pytest.mark.parametrize("look", list(Look))
def test_a_picture_is_made_in_the_look_that_the_person_chose(stage: Stage, look: Look) -> None:
    stage.say(f"pictures {look}")
    stage.say("3h workshop")
    stage.say("week picture")
    stage.say("hours picture")

    for parcel in carried(stage)[2:]:
        picture = Image.open(io.BytesIO(parcel.file_bytes or b""))
        assert (picture.format, picture.getpixel((0, 0))) == ("PNG", PALETTES[look].ground)


def test_the_page_holds_the_weeks_commitments_and_goals(stage: Stage) -> None:
    stage.say("appt thursday 15:00 Zażółć gęślą")
    stage.say("goal finish chapter 4")
    stage.say("week page letter")

    page = PdfReader(io.BytesIO(carried(stage)[-1].file_bytes or b"")).pages[0]
    assert [float(each) for each in page.mediabox[2:]] == [612, 792]
    assert "15:00" in page.extract_text()
    assert "Zażółć gęślą" in page.extract_text()
    assert "finish chapter 4" in page.extract_text()


def test_a_file_lost_in_a_crash_is_made_again_the_same(stage: Stage) -> None:
    stage.say("3h workshop")
    (owed,) = stage.say("week picture").parcels
    before = asyncio.run(stage.house.studio.fill(owed))

    stage.crash()
    assert carried(stage)[-1].file_bytes == before.file_bytes
    assert carried(stage) == []


def test_no_file_is_kept_in_the_database(stage: Stage) -> None:
    stage.say("week picture")
    carried(stage)

    with sqlite3.connect(stage.path) as connection:
        assert connection.execute("SELECT count(*) FROM parcels WHERE file_bytes IS NOT NULL").fetchone() == (0,)


def test_what_cannot_be_made_is_told_and_holds_up_nothing(stage: Stage) -> None:
    (owed,) = stage.say("week picture").parcels
    broken = replace(owed, encloses='{"is":"Show","what":"week"}')

    filled = asyncio.run(stage.house.studio.fill(broken))
    assert (filled.kind, filled.file_name, filled.file_bytes) == (ParcelKind.MESSAGE, None, None)
    assert filled.text == f"{owed.text}\n{NOT_MADE}"


def test_a_message_without_a_file_goes_as_it_is(stage: Stage) -> None:
    (owed,) = stage.say("help").parcels

    assert asyncio.run(stage.house.studio.fill(owed)) is owed


def test_what_draws_is_imported_only_when_something_is_drawn() -> None:
    look = "import sys, bot.assemble; print(sorted({'PIL', 'reportlab', 'openpyxl'} & set(sys.modules)))"
    said = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True, cwd=Path(__file__).parents[2])
    assert said.stdout.strip() == "[]"


def test_an_export_is_one_archive_with_every_table(stage: Stage) -> None:
    stage.say("3h workshop")
    stage.say("export")
    parcel = carried(stage)[-1]

    assert parcel.file_name == "weekwright-2026-03-02.zip"
    with ZipFile(io.BytesIO(parcel.file_bytes or b"")) as archive:
        assert {"README.md", "calendar.ics", "stints.csv", "stints.json"} <= set(archive.namelist())
        assert [row["minutes"] for row in json.loads(archive.read("stints.json"))] == [180]


def test_a_file_too_large_for_a_chat_is_told_so(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(enclosures, "MOST_BYTES", 1000)
    (owed,) = stage.say("export").parcels

    filled = asyncio.run(stage.house.studio.fill(owed))
    assert (filled.kind, filled.text) == (ParcelKind.MESSAGE, f"{owed.text}\n{TOO_LARGE}")
