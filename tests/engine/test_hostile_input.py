"""Hostile text by every way in: what is kept is tame, and every message is one that Telegram takes.

Limits: https://core.telegram.org/bots/api (4096 UTF-16 units of text, 64 bytes behind a button).
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.channels.telegram_carrier import MOST_TEXT_UNITS
from bot.heard import Edited, Heard, Said, SentFile, button_data
from bot.rules.tame_text import tame, tame_lines
from bot.voice.length import units
from storage.records import Carried, Parcel
from tests.stage import ME, Stage
from tests.untraced import untraced

ODD = st.text(
    st.one_of(
        st.characters(),
        st.sampled_from("\u202e\u2066\u200b\u200d\u2060\ufeff\u00ad\u3164\ue000\U000e0041\u2028\x85\0\x1b\u0301\u0489<>&\"'`*_[]{}%\n😀"),
    ),
    min_size=1,
    max_size=40,
)
FRAMES = (
    "{}", "task {}", "task {} friday 30m workshop", "goal {} learning 3h", "month goal {} home", "2h workshop - {}", "{} every tue 13-17",
    "appt tomorrow 15:00 {}", "routine {} 30m every day 7-9", "category {} personal alias {}",
    "place {}", "done {}", "drop {}", "cancel {}",
    "move {} to fri 16:00", "mark {} minor", "calendar {} https://museum.example/{}", "zone {}", "/start {}",
    '"{}"', "task {0}{0}{0}{0}{0}{0}{0}{0}{0}",
)  # fmt: skip


@pytest.fixture(scope="module")
def stage(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Stage]:
    folder: Path = tmp_path_factory.mktemp("hostile")
    made = Stage(folder)
    yield made
    made.close()


def demand_good(parcel: Parcel) -> None:
    """Telegram takes it, and it shows all that it holds."""
    assert 1 <= units(parcel.text) <= MOST_TEXT_UNITS
    assert parcel.text.strip()
    assert tame_lines(parcel.text) == parcel.text
    for start, end in parcel.bold:
        assert 0 <= start < end <= len(parcel.text)
    for row, buttons in enumerate(parcel.buttons):
        for place, button in enumerate(buttons):
            assert button.label.strip()
            assert tame(button.label) == button.label
            assert len(button_data(parcel.id, row, place).encode()) <= 64


def hear(stage: Stage, heard: Heard) -> None:
    with untraced():
        stage.house.engine.receive(heard)
    owed = stage.parcels()
    for parcel in owed:
        demand_good(parcel)
    stage.house.database.outbox.note_and_take([Carried(parcel.id, str(parcel.id)) for parcel in owed], (), stage.now)


@settings(max_examples=150, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(FRAMES), ODD, st.uuids(), st.booleans())
def test_whatever_is_written_comes_back_tame(stage: Stage, frame: str, odd: str, key: object, edits: bool) -> None:
    text = frame.replace("{0}", odd).replace("{}", odd)
    hear(stage, Said(ME, f"s{key}", f"m{key}", text))
    if edits:
        hear(stage, Edited(ME, f"e{key}", f"m{key}", f"task {odd}"))
    for view in ("today", "goals", "settings"):
        hear(stage, Said(ME, f"{view}{key}", f"{view}{key}", view))


@settings(max_examples=40, suppress_health_check=list(HealthCheck))
@given(ODD, st.uuids())
def test_whatever_a_file_is_called_and_holds_comes_back_tame(stage: Stage, odd: str, key: object) -> None:
    lines = ("BEGIN:VCALENDAR", f"X-WR-CALNAME:{odd}", "BEGIN:VEVENT", f"UID:{key}", f"SUMMARY:{odd}", f"LOCATION:{odd}")
    when = ("DTSTART:20260302T120000Z", "DURATION:PT1H", "END:VEVENT", "END:VCALENDAR", "")
    content = "\r\n".join((*lines, *when)).encode("utf-8", "replace")
    hear(stage, SentFile(ME, f"f{key}", f"m{key}", f"{odd}.ics", content))
    for view in ("calendars", "today", "week"):
        hear(stage, Said(ME, f"{view}{key}", f"{view}{key}", view))
    stage.look(lambda desk: demand_tame(*(text for event in desk.calendar_events.all() for text in (event.title, event.place))))
    stage.look(lambda desk: demand_tame(*(calendar.name for calendar in desk.calendars.all())))
    hear(stage, Said(ME, f"u{key}", f"u{key}", "undo"))


def demand_tame(*texts: str) -> None:
    assert [tame(text) for text in texts] == list(texts)


def test_a_name_that_is_too_long_is_refused_in_one_sentence(stage: Stage) -> None:
    hear(stage, Said(ME, "long", "long", "task " + "x" * 301))
    assert stage.look(lambda desk: [task for task in desk.tasks.all() if len(task.title) > 300]) == []
