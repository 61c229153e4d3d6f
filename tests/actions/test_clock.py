"""Clocking in and out."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from tests.stage import Stage


def minutes(stage: Stage) -> object:
    return stage.look(lambda desk: [each.minutes for each in desk.stints.all()])


def test_in_and_out_log_the_hours_between(stage: Stage) -> None:
    assert stage.say("in workshop").lines == ["Workshop: clock running since 09:00."]
    stage.at("2026-03-02 12:30")
    assert stage.say("out").lines[0] == "Workshop, Mon 2 Mar, 09:00–12:30: 3 h 30"
    assert minutes(stage) == [210]


def test_the_button_under_a_clock_in_clocks_out(stage: Stage) -> None:
    stage.say("in workshop")
    stage.at("2026-03-02 10:00")
    stage.tap("Clock out")
    assert minutes(stage) == [60]


def test_clocking_in_elsewhere_ends_the_first_clock_at_that_moment(stage: Stage) -> None:
    stage.say("in workshop")
    stage.at("2026-03-02 13:00")
    answer = stage.say("in museum")
    assert answer.lines == ["Workshop, Mon 2 Mar, 09:00–13:00: 4 h", "Museum: clock running since 13:00."]


def test_clocking_in_twice_says_since_when_it_runs(stage: Stage) -> None:
    stage.say("in workshop")
    stage.at("2026-03-02 09:30")
    assert stage.say("in workshop").lines == ["Workshop has been running since 09:00. Nothing changed."]


def test_a_night_that_ends_in_the_second_of_two_equal_hours_counts_both(stage: Stage) -> None:
    stage.jump("2026-10-24 22:00")
    stage.say("in workshop")
    # Brussels shows 02:30 at 00:30 and again at 01:30 UTC: tz database, rule EU.
    stage.now = datetime(2026, 10, 25, 1, 30, tzinfo=UTC)
    stage.say("out")
    assert minutes(stage) == [330]


def test_a_clock_may_start_and_stop_at_a_time_said(stage: Stage) -> None:
    stage.say("in workshop at 8:15")
    assert stage.say("out 8:45").lines[0] == "Workshop, Mon 2 Mar, 08:15–08:45: 30 min"


def test_a_clock_cannot_start_in_the_future(stage: Stage) -> None:
    assert stage.say("in workshop at 11:00").text == "11:00 is still to come, so the clock was left alone."


def test_a_clock_cannot_stop_before_it_started(stage: Stage) -> None:
    stage.say("in workshop")
    assert stage.say("out 8:30").text == "The end, 08:30, is not after the start, so nothing was logged."


def test_out_with_no_clock_running_says_so(stage: Stage) -> None:
    assert stage.say("out").text == "No clock is running."


def test_less_than_a_minute_stops_the_clock_and_logs_nothing(stage: Stage) -> None:
    stage.say("in workshop")
    stage.now = stage.now.replace(second=30)
    assert "not after the start" in stage.say("out").text


def test_a_bare_amount_goes_to_the_clocked_in_job_and_says_why(stage: Stage) -> None:
    stage.say("in museum")
    stage.at("2026-03-02 11:00")
    assert stage.say("1h").lines[:2] == ["Museum, Mon 2 Mar: 1 h", "Museum, as you are clocked in there."]


def test_a_clock_over_midnight_counts_for_the_day_it_started(stage: Stage) -> None:
    stage.at("2026-03-02 22:00")
    stage.say("in museum")
    stage.at("2026-03-03 01:00")
    assert stage.say("out").lines[0] == "Museum, Mon 2 Mar, 22:00–01:00: 3 h"


def test_a_clock_forgotten_overnight_is_mentioned_and_not_logged_whole(stage: Stage) -> None:
    stage.say("in workshop")
    said = stage.at("2026-03-03 06:30").text
    assert "Clock running: Workshop since 09:00." in said
    assert "Clock running: Workshop since yesterday 09:00." in said
    stage.at("2026-03-03 20:05")
    answer = stage.say("out")
    assert answer.lines[0] == "That would be 35 h 05, since Mon 2 Mar 09:00. Nothing is logged yet."
    assert minutes(stage) == []


def test_a_time_said_the_day_after_ends_the_clock_on_its_own_day(stage: Stage) -> None:
    stage.say("in workshop")
    stage.at("2026-03-03 20:05")
    assert stage.say("out at 17:00").lines[0] == "Workshop, Mon 2 Mar, 09:00–17:00: 8 h"


def test_a_forgotten_clock_may_be_stopped_with_nothing_logged_or_all_of_it(stage: Stage) -> None:
    stage.say("in workshop")
    stage.at("2026-03-03 10:00")
    stage.say("out")
    assert stage.tap("Stop, log nothing").lines == ["Workshop: the clock since yesterday 09:00 is stopped, with nothing logged."]
    assert minutes(stage) == []
    stage.tap("Undo")
    stage.say("out")
    stage.tap("Log all of it")
    assert minutes(stage) == [25 * 60]
    assert stage.say("out").text == "No clock is running."


def test_the_hours_of_a_clock_are_asked_about_when_they_overlap_others(stage: Stage) -> None:
    stage.say("in workshop")
    stage.at("2026-03-02 12:00")
    stage.say("10-11 museum")
    answer = stage.say("out")
    assert answer.labels == ["Keep both", "Replace", "Only the rest"]
    stage.tap("Only the rest")
    assert minutes(stage) == [60, 60, 60]
    assert stage.say("out").text == "No clock is running."


def test_in_alone_asks_which_job(stage: Stage) -> None:
    answer = stage.say("in")
    assert len(answer.labels) == 2
    stage.tap(next(label for label in answer.labels if "museum" in label))
    assert "Clock running: Museum since 09:00." in stage.say("today").lines


def test_out_with_a_day_ends_the_clock_on_that_day(stage: Stage) -> None:
    stage.say("in workshop")
    stage.at("2026-03-03 20:05")
    assert stage.say("out yesterday 17:30").lines[0] == "Workshop, Mon 2 Mar, 09:00–17:30: 8 h 30"


@pytest.mark.parametrize("text", ["out less 30m", "out museum less 30m", "out at 8:30 less 10 min"])
def test_an_end_less_a_break_where_no_clock_runs_says_so(stage: Stage, text: str) -> None:
    assert stage.say(text).text == "No clock is running."


@pytest.mark.parametrize("text", ["out less 20 min", "museum out less 20 min", "museum until 9:10 less 20 min"])
def test_a_break_longer_than_the_clock_ran_says_so_and_the_clock_runs_on(stage: Stage, text: str) -> None:
    stage.say("in museum")
    stage.at("2026-03-02 09:10")
    assert stage.say(text).text == "That break is no shorter than the time it would come off, so nothing was logged."
    assert stage.say("out").lines[0] == "Museum, Mon 2 Mar, 09:00–09:10: 10 min"


def test_a_clock_that_runs_since_another_day_names_it(stage: Stage) -> None:
    stage.say("in museum")
    stage.jump("2026-03-03 07:00")
    assert stage.say("in museum").lines[0] == "Museum has been running since yesterday 09:00. Nothing changed."


@pytest.mark.parametrize("said", ["forgot to clock out, finished 00:20", "i forgot to clock out and left at 0:20"])
def test_a_clock_that_was_forgotten_ends_when_it_is_said_to_have(stage: Stage, said: str) -> None:
    stage.jump("2026-03-02 22:00")
    stage.say("in museum")
    stage.jump("2026-03-03 08:00")
    assert stage.say(said).lines[0] == "Museum, Mon 2 Mar, 22:00–00:20: 2 h 20"


def test_a_clock_set_back_into_hours_of_its_category_asks_whether_these_began_then(stage: Stage) -> None:
    stage.at("2026-03-02 11:10")
    stage.say("workshop 9-11")
    asked = stage.say("workshop started 10")
    assert asked.labels == ["correct workshop today from 10:00", "in workshop"]
    assert stage.tap("correct workshop today from 10:00").lines[0] == "Workshop, Mon 2 Mar, 10:00–11:00: 1 h"
    assert stage.say("museum started 10:30").lines == ["Museum: clock running since 10:30."]
