"""``weekwright run`` itself, as a process, against the Bot API stand-in over real HTTP."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.channels.running import ForecastService, Running
from tests.channels.standin import PERSON, TOKEN, StandIn
from tests.outside.answers import unixtime_answer

STARTED = 40.0  # Seconds that a start may take on a machine busy with other tests.
STINTS = "SELECT count(*) FROM stints"
MINUTES = "SELECT coalesce(sum(minutes), 0) FROM stints"


@pytest.fixture
def standin() -> Iterator[StandIn]:
    with StandIn() as standin:
        yield standin


def test_who_writes_the_code_that_the_first_start_prints_is_let_in(standin: StandIn, tmp_path: Path) -> None:
    with Running(standin, tmp_path, people=()) as bot:
        bot.at("2026-03-01 17:30")
        bot.start()
        standin.wait_for(lambda: "To pair" in bot.log, STARTED)
        standin.say(bot.log.split("within a day:")[1].strip())
        standin.wait_for_message("Weekwright", seconds=STARTED)
        assert bot.count("SELECT count(*) FROM people") == 1


def test_a_whole_day_by_polling(standin: StandIn, tmp_path: Path) -> None:
    with ForecastService(unixtime_answer()) as forecasts, Running(standin, tmp_path, forecast_url=forecasts.url) as bot:
        bot.at("2026-03-01 17:30")
        bot.start()
        standin.say("/start")
        standin.wait_for_message("Weekwright", seconds=STARTED)
        standin.tap("Skip the rest")
        standin.locate(51.05, 3.72)
        standin.wait_for_message("51.05")
        standin.say("goal finish chapter 4 learning 3h")
        standin.wait_for_message("chapter 4")

        bot.at("2026-03-01 18:00")
        standin.wait_for(lambda: _has_button(standin, "Carry 1"), 10)
        standin.tap("Carry 1")

        bot.at("2026-03-02 06:00")
        morning = standin.wait_for_message("Monday 2 March", seconds=10)
        assert "forecast" in morning.text.lower()
        forecasts.is_open = True
        bot.at("2026-03-02 06:11")
        standin.wait_for(lambda: "Open-Meteo" in standin.shown[(PERSON, morning.message_id)].text, 10)
        assert "wet 14:00–16:00" in standin.shown[(PERSON, morning.message_id)].text

        bot.at("2026-03-02 12:30")
        standin.say("task order spokes 30m workshop")
        standin.wait_for_message("spokes")
        standin.say("9-12 workshop")
        words = standin.last_message_id
        standin.wait_for_message("09:00–12:00")
        standin.edit(words, "9-11 workshop")
        standin.wait_for_message("09:00–11:00")
        assert bot.count(MINUTES) == 120
        standin.say("1h family")
        standin.wait_for_message("Family")
        standin.tap("Undo")
        standin.wait_for_message("Taken back")
        assert bot.count(MINUTES) == 120
        standin.say("week picture")
        picture = standin.wait_for_message("Your week, 2–8 March: 2 h spent")
        assert (picture.method, picture.file_name, (picture.file_bytes or b"")[:4]) == ("sendphoto", "week-2026-03-02.png", b"\x89PNG")
        standin.say("week page")
        assert standin.wait_for_message("to print").method == "senddocument"

        bot.at("2026-03-02 20:00")
        standin.wait_for(lambda: _has_button(standin, "Push 1"), 10)
        standin.tap("Push 1")
        standin.wait_for(lambda: len(standin.answered_taps) == 4)
        assert bot.terminate() < 5
        assert TOKEN not in bot.log


def _has_button(standin: StandIn, label: str) -> bool:
    return any(label in row for shown in standin.shown.values() for row in shown.labels)


@pytest.mark.parametrize("milliseconds", [0, 8, 30])
def test_killed_right_after_an_update_was_handed_out_it_is_handled_exactly_once(
    standin: StandIn, tmp_path: Path, milliseconds: int
) -> None:
    with Running(standin, tmp_path) as bot:
        bot.at("2026-03-02 12:00")
        bot.start()
        standin.say("/start")
        standin.wait_until_confirmed(1000, seconds=STARTED)

        def strike(update_ids: list[int]) -> None:
            if update_ids:
                time.sleep(milliseconds / 1000)
                standin.handed_out = lambda _ids: None
                bot.kill()
                killed.append(True)

        killed: list[bool] = []
        standin.handed_out = strike
        number = standin.say("3h workshop")
        standin.wait_for(lambda: bool(killed))
        already = len(standin.calls)
        bot.start()
        # In thirty milliseconds the one that was killed may have done all of it: the new one must have begun before it is told to end.
        standin.wait_for(lambda: any(call.method == "getupdates" for call in standin.calls[already:]), STARTED)
        standin.wait_until_confirmed(number, seconds=STARTED)
        standin.wait_for_message("Workshop today: 3 h in all")
        assert (bot.count(STINTS), bot.count(MINUTES)) == (1, 180)
        bot.terminate()


def test_told_to_stop_in_the_middle_of_a_crowd_it_ends_in_time_and_nothing_is_lost_or_doubled(standin: StandIn, tmp_path: Path) -> None:
    crowd = range(100, 140)
    with Running(standin, tmp_path, people=crowd) as bot:
        bot.at("2026-03-02 12:00")
        bot.start()
        for person in crowd:
            standin.say("2h workshop", person)
        standin.wait_for_message("Workshop", seconds=STARTED)
        assert bot.terminate() < 5
        before = len(standin.calls)
        bot.start()
        # It may have answered them all before it ended, and one that is only starting cannot be told to stop.
        standin.wait_for(lambda: any(call.method == "getupdates" for call in standin.calls[before:]), STARTED)
        standin.wait_for(lambda: all("Workshop today: 2 h in all" in "".join(standin.texts(person)) for person in crowd), 20)
        assert (bot.count(STINTS), bot.count(MINUTES)) == (40, 40 * 120)
        bot.terminate()
        assert [len(standin.texts(person)) for person in crowd] == [1] * 40


def test_a_forecast_service_that_hangs_does_not_keep_it_from_stopping(standin: StandIn, tmp_path: Path) -> None:
    with ForecastService(unixtime_answer()) as forecasts, Running(standin, tmp_path, forecast_url=forecasts.url) as bot:
        forecasts.delay_seconds = 8
        bot.at("2026-03-02 05:30")
        bot.start()
        standin.say("1h workshop")
        standin.wait_for_message("Workshop", seconds=STARTED)
        bot.at("2026-03-02 06:00")
        standin.wait_for(lambda: forecasts.asked > 0)
        assert bot.terminate() < 5


def test_a_second_copy_on_the_same_database_says_so_and_stops(standin: StandIn, tmp_path: Path) -> None:
    with Running(standin, tmp_path) as first, Running(standin, tmp_path) as second:
        first.at("2026-03-02 12:00")
        first.start()
        standin.wait_for(lambda: any(call.method == "getupdates" for call in standin.calls), STARTED)
        second.start()
        assert second.ended() == 1
        assert "another copy" in second.log
        assert "Traceback" not in second.log
        first.terminate()


def test_a_wrong_token_ends_it_with_one_clear_line(standin: StandIn, tmp_path: Path) -> None:
    with StandIn(token="1:another") as other, Running(other, tmp_path) as bot:
        bot.speak_to(standin)
        bot.at("2026-03-02 12:00")
        bot.start()
        assert bot.ended() == 1
        assert "token" in bot.log.splitlines()[-1]
        assert "Traceback" not in bot.log
        assert other.token not in bot.log
