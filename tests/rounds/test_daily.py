"""The three messages that come unasked: when, what, and how often."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.rounds import alarm
from bot.rounds.postman import pause_after
from storage.desk import Desk
from storage.records import Round, RoundKind
from tests.stage import Stage


@pytest.fixture
def stage(tmp_path: Path) -> Iterator[Stage]:
    made = Stage(tmp_path)
    yield made
    made.close()


def forecast(first: str) -> str:
    """Two days of rain from the local midnight of ``first`` on, in Open-Meteo's shape, for Brussels in winter."""
    start = datetime.fromisoformat(first).replace(tzinfo=UTC) - timedelta(hours=1)
    times = [int((start + timedelta(hours=n)).timestamp()) for n in range(48)]
    hourly = {
        "time": times,
        "temperature_2m": [5.0] * 48,
        "precipitation_probability": [90] * 48,
        "precipitation": [1.0] * 48,
        "weather_code": [63] * 48,
        "wind_speed_10m": [10.0] * 48,
        "wind_gusts_10m": [20.0] * 48,
    }
    shape = {"latitude": 51.05, "longitude": 3.72, "utc_offset_seconds": 3600, "timezone": "Europe/Brussels", "hourly": hourly}
    return json.dumps(shape)


def test_each_morning_has_one_message_with_the_day_in_it(stage: Stage) -> None:
    stage.say("appt tue 10-11 dentist")
    said = stage.at("2026-03-03 12:00")
    assert [parcel.round for parcel in said.parcels] == ["morning"]
    assert "Morning: 10:00–11:00 dentist" in said.lines
    assert not said.parcels[0].silent


def test_before_the_waking_window_it_makes_no_sound(stage: Stage) -> None:
    stage.say("waking 7-22")
    assert stage.at("2026-03-03 06:30").parcels[0].silent


def test_the_weather_stands_in_it_with_its_source(stage: Stage) -> None:
    stage.skies.payload = forecast("2026-03-03")
    said = stage.at("2026-03-03 06:30")
    assert "ain" in said.lines[1]
    assert said.lines[-1] == "Weather data by Open-Meteo.com"


def test_rain_is_named_beside_what_is_outdoors_and_plans_keep_outdoor_tasks_out_of_it(stage: Stage) -> None:
    stage.skies.payload = forecast("2026-03-03")
    stage.say("picnic tue 12-15 outdoors family")
    stage.say("appt tue 16-17 dentist")
    stage.say("task paint the bench tomorrow 1h home outdoors")
    lines = stage.at("2026-03-03 06:30").lines
    assert "12:00 picnic: mind rain." in lines
    assert not any("dentist:" in line for line in lines)
    assert "No hours for paint the bench (1 h): it would fit at 06:00, when it is likely wet. Thu 5 Mar has room for it." in lines


def test_a_restart_asks_for_no_new_forecast(stage: Stage) -> None:
    stage.skies.payload = forecast("2026-03-03")
    stage.at("2026-03-03 06:00")
    stage.crash()
    stage.say("today")
    stage.at("2026-03-03 08:00")
    assert stage.skies.asked == 1


def test_without_a_forecast_it_goes_out_on_time_and_is_rewritten_when_one_arrives(stage: Stage) -> None:
    said = stage.at("2026-03-03 06:00")
    assert "No forecast" in said.text
    stage.skies.payload = forecast("2026-03-03")
    rewritten = stage.at("2026-03-03 06:10").parcels
    assert [(parcel.kind.value, parcel.edits) for parcel in rewritten] == [("edit", said.parcels[0].id)]
    assert "No forecast" not in rewritten[0].text
    assert stage.at("2026-03-03 12:00").parcels == ()


def test_after_two_hours_without_a_forecast_it_is_left_as_it_is(stage: Stage) -> None:
    stage.at("2026-03-03 08:05")
    asked = stage.skies.asked
    stage.skies.payload = forecast("2026-03-03")
    assert stage.at("2026-03-03 19:00").parcels == ()
    assert stage.skies.asked == asked


def test_the_evening_is_silent_when_nothing_is_open(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("done 1")
    assert stage.at("2026-03-02 23:00").parcels == ()


def test_the_evening_asks_about_open_tasks_and_planned_hours_without_stints(stage: Stage) -> None:
    stage.say("museum shift every mon 13-17 museum")
    stage.say("task order spokes")
    said = stage.at("2026-03-02 20:00")
    assert said.labels == ["Close 1", "Push 1", "Drop 1", "Log museum 13:00–17:00"]
    stage.tap("Log museum 13:00–17:00")
    assert stage.look(lambda desk: [each.minutes for each in desk.stints.all()]) == [240]


def test_planned_hours_that_were_logged_are_not_asked_about(stage: Stage) -> None:
    stage.say("museum shift every mon 13-17 museum")
    stage.at("2026-03-02 18:00")
    stage.say("4h museum")
    assert stage.at("2026-03-02 23:00").parcels == ()


def test_the_recap_comes_on_the_last_day_of_the_week(stage: Stage) -> None:
    rounds = [parcel.round for parcel in stage.at("2026-03-08 23:59").parcels]
    assert rounds.count("recap") == 1
    assert rounds.count("morning") == 6


def test_the_recap_adds_up_hours_and_names_goals(stage: Stage) -> None:
    for text in (
        "3h workshop",
        "goal finish chapter 4 learning",
        "goal oil the gate home",
        "done chapter 4",
        "museum shift every tue 13-17 museum",
    ):
        stage.say(text)
    said, ahead = (each for each in stage.at("2026-03-08 18:00").parcels[-3:] if each.encloses is None)
    lines = said.text.split("\n")
    assert lines[:4] == ["Your week, 2–8 March", "Workshop: 3 h", "Museum: 0 min, planned 4 h", "Together: 3 h"]
    assert "Goals met: finish chapter 4." in lines
    assert "1 oil the gate" in lines
    assert "Tue 10 Mar: afternoon 13:00–17:00 museum shift" in ahead.text.split("\n")


def test_what_was_missed_in_the_morning_comes_late_with_a_word(stage: Stage) -> None:
    stage.jump("2026-03-03 10:30")
    said = stage.tick()
    assert said.lines[1] == "Late, as I was not running earlier."


def test_a_morning_message_after_noon_is_of_no_use_and_left_out(stage: Stage) -> None:
    stage.jump("2026-03-03 13:00")
    assert stage.tick().parcels == ()
    assert [parcel.round for parcel in stage.at("2026-03-04 06:00").parcels] == ["morning"]


def test_after_a_week_away_only_what_still_helps_is_said(stage: Stage) -> None:
    stage.jump("2026-03-12 10:00")
    said = stage.tick()
    assert [parcel.round for parcel in said.parcels] == ["morning"]
    assert said.lines[:2] == ["Thursday 12 March", "Late, as I was not running earlier."]
    assert [parcel.round for parcel in stage.at("2026-03-13 06:00").parcels] == ["morning"]


def test_what_was_missed_under_a_clock_that_ran_ahead_comes_after_all_once_it_is_right_again(stage: Stage) -> None:
    """By a day and an hour: the morning that waits then is not so far away that the clock would be doubted."""
    stage.jump("2026-03-04 00:20")
    assert stage.tick().parcels == ()
    stage.jump("2026-03-03 04:00")
    assert stage.tick().parcels == ()
    assert [parcel.round for parcel in stage.at("2026-03-03 12:00").parcels] == ["morning"]
    assert [parcel.round for parcel in stage.at("2026-03-04 12:00").parcels] == ["morning"]


def test_a_late_recap_comes_until_the_next_noon(stage: Stage) -> None:
    stage.at("2026-03-08 12:00")
    stage.jump("2026-03-09 09:00")
    assert "recap" in [parcel.round for parcel in stage.tick().parcels]


def test_a_crash_between_rounds_loses_none_and_repeats_none(stage: Stage) -> None:
    stage.at("2026-03-03 06:00")
    stage.crash()
    assert stage.at("2026-03-03 19:59").parcels == ()
    stage.crash()
    assert [parcel.round for parcel in stage.at("2026-03-04 06:00").parcels] == ["morning"]


def test_a_round_that_fails_is_put_off_and_holds_up_no_other(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[int] = []

    def fails_for_the_first(desk: Desk, due: Round) -> None:
        if desk.person.id == 1:
            raise KeyError("a mistake")
        told.append(desk.person.id)
        desk.rounds.claim(due.id)

    stage.house.door.admit("stage:other", stage.now)
    monkeypatch.setitem(alarm.MESSAGES, RoundKind.MORNING, fails_for_the_first)
    stage.at("2026-03-03 06:00")
    assert told == [2]
    assert stage.house.database.rounds.next_due() == stage.now + pause_after(0)


def test_all_who_share_a_place_share_its_forecast_and_its_absence(stage: Stage) -> None:
    stage.house.door.admit("stage:other", stage.now)
    stage.at("2026-03-03 06:00")
    assert stage.skies.asked == 1
    stage.skies.payload = forecast("2026-03-03")
    stage.at("2026-03-03 06:30")
    assert stage.skies.asked == 2


def test_the_evening_asks_about_planned_hours_alone_right_below_its_heading(stage: Stage) -> None:
    stage.say("museum shift every mon 13-17 museum")
    asked = stage.at("2026-03-02 20:01")
    assert asked.lines == ["Before Monday ends", "Planned, with no hours yet", "13:00–17:00 museum shift"]


def test_hours_planned_for_a_task_that_went_on_are_asked_for_in_the_evening_only(stage: Stage) -> None:
    for said in ("task oil the chains 1h workshop", "task order spokes 1h workshop", "plan", "accept"):
        stage.say(said)
    assert "10:00–11:00 order spokes" in stage.at("2026-03-02 20:05").text
    stage.say("done 2")
    stage.tap("Push 1")
    (asked,) = [line for line in stage.at("2026-03-03 06:05").lines if line.startswith("No hours yet")]
    assert asked == "No hours yet for yesterday: 10:00–11:00 order spokes."


def test_more_planned_hours_of_yesterday_than_have_buttons_are_counted_and_logged_together(stage: Stage) -> None:
    for said in ("appt museum shift today 13-15", "appt workshop shift today 15-16", "appt museum desk today 16-18"):
        stage.say(said)
    morning = stage.at("2026-03-03 06:05")
    (asked,) = [line for line in morning.lines if line.startswith("No hours yet")]
    assert asked == "No hours yet for yesterday: 13:00–15:00 museum shift, 15:00–16:00 workshop shift, 1 more."
    stage.tap("Log all as planned")
    assert stage.say("hours yesterday").lines[:3] == ["Hours, Mon 2 Mar", "Workshop: 1 h", "Museum: 4 h"]


def test_a_night_watch_that_ends_after_the_morning_message_is_asked_for_once_in_the_evening(stage: Stage) -> None:
    stage.say("museum watch every tue 22:00-7:00 museum")
    asked = [parcel for parcel in stage.at("2026-03-05 20:05").parcels if "22:00–07:00 museum watch" in parcel.text.split("Free:")[-1]]
    assert [parcel.written.astimezone(stage.zone).isoformat()[:16] for parcel in asked] == ["2026-03-04T20:00"]
    assert asked[0].text.split("\n")[1:] == ["Planned, with no hours yet", "yesterday 22:00–07:00 museum watch"]
    stage.tap("Log museum 22:00–07:00")
    assert stage.say("hours tue").lines[:2] == ["Hours, Tue 3 Mar", "Museum: 9 h"]


def test_a_night_watch_that_ends_by_the_morning_message_is_asked_for_then_and_not_in_the_evening(stage: Stage) -> None:
    stage.say("museum watch every tue 22:00-6:00 museum")
    said = stage.at("2026-03-04 21:00").parcels
    assert ["No hours yet" in parcel.text for parcel in said if "22:00–06:00" in parcel.text] == [False, True]
