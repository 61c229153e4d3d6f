"""A person who lives by a 12-hour clock: answered by it, all through a day, and taken at their word by either."""

from __future__ import annotations

import asyncio
import csv
import io
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bot.settings import sample_settings
from storage.records import ClockStyle
from tests.stage import Stage
from tests.voice.all_sentences import OF_24_HOURS


@pytest.fixture
def stage(tmp_path: Path) -> Iterator[Stage]:
    made = Stage(tmp_path)
    made.say("12-hour clock")
    yield made
    made.close()


def test_a_day_goes_by_in_their_hours(stage: Stage) -> None:
    said = [
        stage.say("museum shift every tue 1-5pm"),
        stage.say("appt dentist fri 15:00"),
        stage.say("task order spokes tomorrow 30m workshop"),
        stage.say("routine exercise 30m every day 7-8"),
        stage.say("workshop 7-8:30"),
        stage.say("in workshop 8:45"),
        stage.say("out at 8:50"),
        stage.say("out at 11pm"),
        stage.say("settings"),
        stage.say("week"),
        stage.at("2026-03-03 06:00"),
        stage.tap("Accept the plan"),
        stage.say("13-14 order spokes"),
        stage.say("noon-1 order spokes"),
        stage.say("in workshop at noon"),
        stage.at("2026-03-03 20:00"),
        stage.tap("Log museum 1:00–5:00 pm"),
    ]

    for answer in said:
        assert not [line for line in (*answer.lines, *answer.labels) if OF_24_HOURS.search(line)], answer.text
    assert said[0].lines[0] == "Added: Tue 3 Mar, 1:00–5:00 pm museum shift, every Tuesday, Museum."
    assert said[4].lines[0] == "Workshop, Mon 2 Mar, 7:00–8:30 am: 1 h 30"
    assert "Morning 6:00 am, evening 8:00 pm" in said[8].lines
    assert "Fri 6 Mar: afternoon 3:00–4:00 pm dentist" in said[9].lines
    assert "Afternoon: 1:00–5:00 pm museum shift" in said[10].lines
    assert "6:00–6:30 am 1 order spokes" in said[10].lines
    assert said[12].text == "Those hours are not free: museum shift, 1:00 pm. The plan stays."
    assert "noon–1:00 pm 1 order spokes" in said[13].lines
    assert said[14].text == "Noon is still to come, so the clock was left alone."
    assert said[16].lines[0] == "Museum, Tue 3 Mar, 1:00–5:00 pm: 4 h"


def test_what_is_asked_is_offered_by_their_clock_and_a_tap_does_it(stage: Stage) -> None:
    asked = stage.say("appt dentist fri 7-8")
    assert asked.labels == ["appt dentist fri 7-8am", "appt dentist fri 7-8pm"]
    assert stage.tap("appt dentist fri 7-8pm").lines[0] == "Added: Fri 6 Mar, 7:00–8:00 pm dentist."


def test_times_are_read_by_both_clocks_as_ever(stage: Stage) -> None:
    for text in ("museum 13-17 yesterday", "no, 1-5pm", "no, 13:00-17:00"):
        assert stage.say(text).lines[0] == "Museum, Sun 1 Mar, 1:00–5:00 pm: 4 h"


def test_the_way_back_is_a_word_or_a_tap(stage: Stage) -> None:
    stage.say("24 hour clock")
    assert stage.say("museum 13-17 yesterday").lines[0] == "Museum, Sun 1 Mar, 13:00–17:00: 4 h"
    assert stage.say("use am and pm").text == "Times by the 12-hour clock, as 2:30 pm."
    stage.tap("Undo")
    assert "Times by the 24-hour clock" in stage.say("settings").lines


def test_a_timesheets_files_are_records_and_keep_the_24_hour_clock(stage: Stage) -> None:
    stage.say("museum 13-17 yesterday")
    assert "Sun 1 Mar: 1:00–5:00 pm: 4 h" in stage.say("timesheet museum last period").lines
    (sent,) = stage.say("museum timesheet csv last period").parcels
    made = asyncio.run(stage.house.studio.fill(sent)).file_bytes
    assert made is not None
    assert "13:00–17:00" in [cell for row in csv.reader(io.StringIO(made.decode("utf-8-sig"))) for cell in row]


def test_the_first_conversation_speaks_it_where_the_settings_say_so(tmp_path: Path) -> None:
    sample = sample_settings()
    stage = Stage(tmp_path, replace(sample, person=replace(sample.person, clock=ClockStyle.TWELVE)))
    stage.say("/start")
    assert stage.tap("Keep this").lines == ["When are you up? I have 6:00 am–9:00 pm.", "Write other hours like 7am-10pm."]
    assert stage.say("7am-10pm").lines[0] == "Waking hours 7:00 am–10:00 pm."
    stage.tap("Keep this")
    assert stage.tap("Keep this").lines == [
        "When shall I write? I have 6:00 am in the morning and 8:00 pm in the evening.",
        "Write other times like 6:30am and 8:30pm.",
    ]
    assert stage.say("6:30am and 8:30pm").lines[-1] == "appt tomorrow 3pm dentist"
    stage.close()
