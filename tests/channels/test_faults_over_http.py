"""What goes wrong around the whole program, told as a person lives through it: ``weekwright run`` over real HTTP."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.voice.post_said import PERHAPS_A_REPEAT
from tests.channels.running import ForecastService, Running
from tests.channels.standin import PERSON, StandIn
from tests.channels.standin_http import Fault, hangs, refuses, resets
from tests.outside.answers import unixtime_answer

STARTED = 60.0
MINUTES = "SELECT coalesce(sum(minutes), 0) FROM stints"
OWED = "SELECT count(*) FROM parcels WHERE state = 'owed'"
MORNINGS = "SELECT count(*) FROM parcels WHERE round = 'morning' AND kind = 'message'"
PLANNED = "SELECT count(*) FROM rounds WHERE kind = 'morning' AND state = 'waiting' AND key = '2026-03-03'"
BLOCKED = refuses(403, "Forbidden: bot was blocked by the user")


@pytest.fixture
def standin() -> Iterator[StandIn]:
    with StandIn() as standin:
        yield standin


@pytest.fixture
def bot(standin: StandIn, tmp_path: Path) -> Iterator[Running]:
    with Running(standin, tmp_path) as running:
        running.at("2026-03-02 12:00")
        running.start()
        standin.say("3h workshop")
        standin.wait_for_message("Workshop today: 3 h", seconds=STARTED)
        yield running


def test_who_blocks_the_bot_is_left_alone_and_told_on_their_return_what_was_missed(standin: StandIn, bot: Running) -> None:
    standin.fault("sendMessage", BLOCKED)
    standin.say("1h museum")
    standin.wait_for(lambda: bot.count("SELECT count(*) FROM silences") == 1)
    before = len(standin.calls)
    bot.at("2026-03-03 08:00")
    standin.wait_for(lambda: _polls(standin) > 0, 2)
    bot.at("2026-03-04 08:00")
    assert not [call for call in standin.calls[before:] if call.method == "sendmessage"]
    assert bot.count(MORNINGS) == 0
    standin.say("2h learning")
    back = standin.wait_for_message("I can write to you again")
    assert "1 message could not reach you" in back.text
    standin.wait_for_message("Learning today: 2 h in all")
    assert bot.count(MINUTES) == 360
    standin.wait_for_message("Wednesday 4 March")
    assert bot.count(MORNINGS) == 1


def _polls(standin: StandIn) -> int:
    return sum(call.method == "getupdates" for call in standin.calls)


def test_killed_after_a_message_was_taken_and_before_our_mark_the_bot_sends_it_again_and_says_so(standin: StandIn, bot: Running) -> None:
    standin.fault("sendMessage", hangs(5.0, accepted=True))
    standin.say("1h museum")
    first = standin.wait_for_message("Museum today: 1 h in all.").text
    bot.kill()
    bot.start()
    again = standin.wait_for_message(PERHAPS_A_REPEAT, STARTED).text
    assert again == f"{PERHAPS_A_REPEAT}\n{first}"
    assert bot.count(MINUTES) == 240


def test_an_hour_without_network_loses_nothing(standin: StandIn, bot: Running) -> None:
    away: list[Fault] = [resets(accepted=False)] * 12
    standin.fault("getUpdates", *away[:3])
    standin.fault("sendMessage", *away)
    standin.say("1h museum")
    for minute in range(1, 60, 4):
        bot.at(f"2026-03-02 12:{minute:02d}")
        standin.wait_for(lambda: bot.count("SELECT count(*) FROM handled") == 2)
        standin.wait_for(lambda: _tries(bot) > 0)
    standin.wait_for(lambda: _caught_up(bot, "2026-03-02 13:00"), 40)
    assert "Museum today: 1 h in all." in standin.texts()[-1]
    assert bot.count(MINUTES) == 240


def _tries(bot: Running) -> int:
    return bot.count("SELECT coalesce(max(tries), 0) FROM parcels")


def _caught_up(bot: Running, at: str) -> bool:
    """Whether all is sent; the clock goes on by some seconds each time this is asked."""
    _caught_up.seconds = (getattr(_caught_up, "seconds", 0) + 7) % 3600  # type: ignore[attr-defined]
    minutes, seconds = divmod(_caught_up.seconds, 60)  # type: ignore[attr-defined]
    bot.at(f"{at[:14]}{minutes:02d}:{seconds:02d}")
    return bot.count(OWED) == 0


def test_a_clock_that_jumps_ahead_a_month_and_back_keeps_the_next_morning_message(standin: StandIn, bot: Running) -> None:
    bot.at("2026-04-02 12:30")
    # The next morning, and then the newest one, are too late to be of use.
    standin.wait_for(lambda: bot.count("SELECT count(*) FROM rounds WHERE kind = 'morning' AND state = 'missed'") >= 2, STARTED)
    bot.at("2026-03-02 12:35")
    standin.wait_for(lambda: bot.count(PLANNED) == 1, STARTED)
    bot.at("2026-03-03 06:00")
    standin.wait_for_message("Tuesday 3 March")
    assert bot.count(MORNINGS) == 1


def test_after_a_night_suspended_the_morning_message_comes_late_with_a_word(standin: StandIn, bot: Running) -> None:
    bot.at("2026-03-03 09:30")
    morning = standin.wait_for_message("Tuesday 3 March")
    assert "Late, as I was not running earlier." in morning.text


@pytest.mark.parametrize("payload", ["[]", "{}", "<html>later</html>"], ids=["a list", "nothing in it", "no JSON"])
def test_a_wrong_forecast_leaves_the_morning_message_on_time(standin: StandIn, tmp_path: Path, payload: str) -> None:
    with ForecastService(payload) as forecasts, Running(standin, tmp_path, forecast_url=forecasts.url) as bot:
        forecasts.is_open = True
        _see_the_morning(standin, bot)
        assert "forecast" in standin.wait_for_message("Monday 2 March").text.lower()


def test_a_half_empty_forecast_says_what_it_knows(standin: StandIn, tmp_path: Path) -> None:
    answer = unixtime_answer()
    hourly = {name: [value if hour % 2 else None for hour, value in enumerate(values)] for name, values in answer["hourly"].items()}
    answer["hourly"] = {**hourly, "time": answer["hourly"]["time"]}
    with ForecastService(answer) as forecasts, Running(standin, tmp_path, forecast_url=forecasts.url) as bot:
        forecasts.is_open = True
        _see_the_morning(standin, bot)
        assert bot.count(MORNINGS) == 1


def test_a_slow_forecast_holds_up_no_answer(standin: StandIn, tmp_path: Path) -> None:
    with ForecastService(unixtime_answer()) as forecasts, Running(standin, tmp_path, forecast_url=forecasts.url) as bot:
        forecasts.is_open, forecasts.delay_seconds = True, 6.0
        bot.at("2026-03-02 05:30")
        bot.start()
        standin.say("/start")
        standin.wait_for_message("Weekwright", seconds=STARTED)
        standin.locate(51.05, 3.72)
        standin.wait_for_message("51.05")
        bot.at("2026-03-02 06:00")
        standin.wait_for(lambda: forecasts.asked > 0)
        standin.say("1h workshop")
        standin.wait_for_message("Workshop today: 1 h", seconds=5)


def _see_the_morning(standin: StandIn, bot: Running) -> None:
    bot.at("2026-03-01 21:30")
    bot.start()
    standin.say("/start")
    standin.wait_for_message("Weekwright", seconds=STARTED)
    standin.locate(51.05, 3.72)
    standin.wait_for_message("51.05")
    bot.at("2026-03-02 06:00")
    standin.wait_for_message("Monday 2 March", seconds=15)
    assert standin.shown[(PERSON, standin.last_message_id)]
