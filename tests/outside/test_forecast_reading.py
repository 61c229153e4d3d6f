"""Open-Meteo's answers read. Source of the shape: https://open-meteo.com/en/docs"""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.outside.faults import Fault
from bot.outside.forecast_reading import UnreadableForecast, read_forecast
from bot.rules.weather import Forecast
from tests.outside.answers import MIDNIGHT, iso_answer, unixtime_answer


def test_unix_times_and_local_iso_times_say_the_same() -> None:
    assert read_forecast(json.dumps(unixtime_answer())) == read_forecast(json.dumps(iso_answer()))


def test_hours_and_days_carry_every_value() -> None:
    forecast = read_forecast(unixtime_answer())
    hour, day = forecast.hours[15], forecast.days[0]
    assert hour.at == datetime(2026, 3, 2, 14, tzinfo=UTC)
    assert (hour.temperature, hour.humidity, hour.uv) == (7.75, 80.0, 1.5)
    assert (hour.wet_chance, hour.millimetres, hour.code, hour.wind, hour.gusts) == (70.0, 0.6, 61, 18.0, 43.2)
    assert (day.day, day.low, day.high, day.code, day.wet_chance) == (date(2026, 3, 2), 4.0, 9.8, 61, 70.0)
    assert day.sunrise == datetime(2026, 3, 2, 6, 26, tzinfo=UTC)
    assert (forecast.latitude, forecast.longitude) == (51.04, 3.72)


def test_times_after_a_clock_change_are_read_with_the_answers_one_offset() -> None:
    """On 2026-03-29 Brussels goes from UTC+1 to UTC+2, and an answer from before has UTC+1 throughout."""
    answer = {
        "utc_offset_seconds": 3600,
        "timezone": "Europe/Brussels",
        "hourly": {"time": ["2026-03-29T01:00", "2026-03-29T12:00"], "temperature_2m": [5, 9]},
    }
    assert [hour.at.hour for hour in read_forecast(answer).hours] == [0, 11]


def test_without_an_offset_the_zones_name_decides_and_without_either_it_is_utc() -> None:
    hourly = {"time": ["2026-07-01T12:00"], "temperature_2m": [20]}
    assert read_forecast({"timezone": "Europe/Brussels", "hourly": hourly}).hours[0].at.hour == 10
    assert read_forecast({"hourly": hourly}).hours[0].at.hour == 12
    assert read_forecast({"timezone": "Nowhere/At_all", "hourly": hourly}).hours[0].at.hour == 12


@pytest.mark.parametrize(
    ("column", "unit", "given_value", "field", "value"),
    [
        # Exact by definition: the international inch and mile (1959), the nautical mile (1929), Fahrenheit's scale.
        ("temperature_2m", "°F", 50.0, "temperature", 10.0),
        ("wind_speed_10m", "m/s", 10.0, "wind", 36.0),
        ("wind_speed_10m", "mp/h", 10.0, "wind", 16.09344),
        ("wind_speed_10m", "kn", 10.0, "wind", 18.52),
        ("precipitation", "inch", 1.0, "millimetres", 25.4),
        ("windspeed_10m", "km/h", 10.0, "wind", 10.0),
    ],
)
def test_other_units_and_older_names_are_taken_too(column: str, unit: str, given_value: float, field: str, value: float) -> None:
    answer = {"hourly_units": {column: unit}, "hourly": {"time": [0], column: [given_value]}}
    assert getattr(read_forecast(answer).hours[0], field) == pytest.approx(value)


def test_nulls_short_columns_and_missing_columns_give_none() -> None:
    answer = unixtime_answer(hours=3)
    answer["hourly"]["temperature_2m"] = [None, 5.0]
    del answer["hourly"]["weather_code"]
    answer["hourly"]["wind_speed_10m"] = "broken"
    answer["hourly"]["uv_index"] = [True, float("nan"), "3"]
    hours = read_forecast(answer).hours
    assert [hour.temperature for hour in hours] == [None, 5.0, None]
    assert [(hour.code, hour.wind, hour.uv) for hour in hours] == [(None, None, None)] * 3


def test_rows_whose_time_cannot_be_read_are_left_out_and_the_rest_is_put_in_order() -> None:
    answer = {"hourly": {"time": [7200, None, "soon", 3600, 1e300], "temperature_2m": [2, 9, 9, 1, 9]}}
    assert [hour.temperature for hour in read_forecast(answer).hours] == [1, 2]


def test_an_answer_with_days_only_is_a_forecast() -> None:
    answer = unixtime_answer()
    del answer["hourly"]
    assert len(read_forecast(answer).days) == 2


def test_a_sunrise_that_lies_far_from_its_day_is_none() -> None:
    answer = unixtime_answer()
    answer["daily"]["sunrise"] = [0, 0]
    assert read_forecast(answer).days[0].sunrise is None


@pytest.mark.parametrize(
    "text",
    [
        "",
        "<html>",
        "[]",
        "7",
        "null",
        "{}",
        '{"hourly": null}',
        '{"hourly": {"time": []}}',
        '{"error": true, "reason": "no"}',
        "[" * 100_000,
    ],
)
def test_what_is_no_forecast_is_refused(text: str) -> None:
    with pytest.raises(UnreadableForecast) as caught:
        read_forecast(text)
    assert caught.value.fault is Fault.NOT_UNDERSTOOD


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)


@given(st.data())
def test_whatever_stands_in_for_any_part_nothing_but_its_own_error_comes_out(data: st.DataObject) -> None:
    answer: dict[str, Any] = unixtime_answer(hours=3)
    name = data.draw(st.sampled_from(sorted(answer)))
    if isinstance(answer[name], dict) and data.draw(st.booleans()):
        answer[name][data.draw(st.sampled_from(sorted(answer[name])))] = data.draw(JSON)
    else:
        answer[name] = data.draw(JSON)
    try:
        assert isinstance(read_forecast(json.dumps(answer)), Forecast)
    except UnreadableForecast:
        assert name in ("hourly", "daily")


def test_hours_start_where_the_answer_starts() -> None:
    assert read_forecast(unixtime_answer()).hours[0].at == MIDNIGHT
