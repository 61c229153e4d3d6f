"""The forecast sources, with answers made by ``responses`` and files in a temporary folder."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import responses

from bot.outside.faults import Fault, ForecastUnavailable
from bot.outside.forecast import OPEN_METEO, ForecastFile, ForecastSource, OpenMeteo, with_path
from bot.outside.forecast_reading import read_forecast
from bot.outside.web_service import Patience, WebService
from tests.outside.answers import asked, unixtime_answer

URL = f"{OPEN_METEO}/v1/forecast"


def open_meteo(days: int = 8) -> OpenMeteo:
    return OpenMeteo(days=days, web=WebService(URL, Patience(tries=1)))


def fault_of(source: ForecastSource) -> Fault:
    with pytest.raises(ForecastUnavailable) as caught:
        source.fetch(51.05, 3.72)
    return caught.value.fault


@responses.activate
def test_the_text_is_given_as_it_came_and_can_be_read() -> None:
    text = json.dumps(unixtime_answer())
    responses.get(URL, body=text)
    fetched = OpenMeteo().fetch(51.05, 3.72)
    assert fetched == text
    assert len(read_forecast(fetched).hours) == 48


@responses.activate
def test_the_question_asks_for_unix_times_at_a_coarse_place_and_at_most_sixteen_days() -> None:
    responses.get(URL, json=unixtime_answer())
    open_meteo(days=30).fetch(51.053821, -3.7261)
    question = asked()
    assert (question["latitude"], question["longitude"]) == ("51.05", "-3.73")
    assert (question["timeformat"], question["timezone"], question["forecast_days"]) == ("unixtime", "auto", "16")
    assert {"temperature_2m", "precipitation_probability", "weather_code"} <= set(question["hourly"].split(","))


@responses.activate
@pytest.mark.parametrize(
    ("status", "body", "fault"),
    [
        (400, '{"error": true, "reason": "Invalid"}', Fault.REFUSED),
        (429, "slow down", Fault.TOO_MANY_REQUESTS),
        (503, "", Fault.SERVER_ERROR),
        (200, "<html>Please log in to this network</html>", Fault.NOT_UNDERSTOOD),
        (200, '{"latitude": 51.05}', Fault.NOT_UNDERSTOOD),
        (200, "x" * 3_000_000, Fault.TOO_LARGE),
    ],
    ids=["400", "429", "503", "no JSON", "no hours", "oversized"],
)
def test_every_fault_is_one_kind_of_error(status: int, body: str, fault: Fault) -> None:
    responses.get(URL, status=status, body=body)
    assert fault_of(open_meteo()) is fault


@responses.activate
def test_a_half_empty_answer_is_still_a_forecast() -> None:
    answer = unixtime_answer()
    answer["hourly"]["precipitation_probability"] = [None] * 48
    del answer["daily"]
    responses.get(URL, json=answer)
    assert read_forecast(open_meteo().fetch(51.05, 3.72)).days == ()


def test_a_file_answers_for_every_place(tmp_path: Path) -> None:
    (tmp_path / "sunny.json").write_text(json.dumps(unixtime_answer()), "utf-8")
    source = ForecastFile(tmp_path / "sunny.json")
    assert source.fetch(0, 0) == source.fetch(51.05, 3.72) == json.dumps(unixtime_answer())


def test_no_file_cannot_be_reached_and_a_broken_one_is_named(tmp_path: Path) -> None:
    (tmp_path / "broken.json").write_text("{", "utf-8")
    assert fault_of(ForecastFile(None)) is Fault.NOT_REACHED
    assert fault_of(ForecastFile(tmp_path / "missing.json")) is Fault.NOT_REACHED
    with pytest.raises(ForecastUnavailable, match=r"broken\.json"):
        ForecastFile(tmp_path / "broken.json").fetch(0, 0)


def test_an_address_without_a_path_gets_the_services_own() -> None:
    assert with_path("http://127.0.0.1:9", "/v1/forecast") == "http://127.0.0.1:9/v1/forecast"
    assert with_path("http://127.0.0.1:9/", "/v1/forecast") == "http://127.0.0.1:9/v1/forecast"
    assert with_path("http://127.0.0.1:9/other", "/v1/forecast") == "http://127.0.0.1:9/other"
