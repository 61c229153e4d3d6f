"""What a forecast says about one local day."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.local_time import day_bounds
from bot.rules.weather import DayWeather, Forecast, ForecastDay, ForecastHour, WetSpell, day_code, day_weather, wet_spells

DAY = date(2026, 3, 2)
MIDNIGHT = datetime(2026, 3, 1, 23, tzinfo=UTC)
BRUSSELS = "Europe/Brussels"
WHOLE_DAY = ForecastDay(DAY, low=3, high=11, wet_chance=80, code=63, wind=20, sunrise=datetime(2026, 3, 2, 6, 26, tzinfo=UTC))


def hours(*temperatures: float | None, start: datetime = MIDNIGHT) -> tuple[ForecastHour, ...]:
    return tuple(ForecastHour(start + timedelta(hours=number), temperature) for number, temperature in enumerate(temperatures))


def weather(*given_hours: ForecastHour, day: date = DAY, from_time: time = time(0), to_time: time = time(0)) -> DayWeather:
    found = day_weather(Forecast(51, 3.7, given_hours), day, BRUSSELS, from_time, to_time)
    assert found is not None
    return found


def test_lowest_and_highest_are_those_within_the_window() -> None:
    found = weather(*hours(*range(24)), from_time=time(6), to_time=time(21))
    assert (found.low, found.high) == (6, 21)


def test_a_window_without_an_end_lasts_until_midnight() -> None:
    found = weather(*hours(*range(48)), from_time=time(6))
    assert (found.low, found.high) == (6, 24)


def test_hours_of_other_days_do_not_count() -> None:
    assert day_weather(Forecast(51, 3.7, hours(1, 2, 3)), date(2026, 3, 4), BRUSSELS) is None


def test_nulls_are_passed_over() -> None:
    found = weather(*hours(None, 4, None, 7))
    assert (found.low, found.high, found.code, found.wind) == (4, 7, None, None)


def test_a_day_of_nulls_only_is_no_forecast() -> None:
    assert day_weather(Forecast(51, 3.7, hours(None, None)), DAY, BRUSSELS) is None


def test_the_whole_days_values_stand_in_where_hours_are_missing() -> None:
    for some_hours in ((), hours(None, None)):
        found = day_weather(Forecast(51, 3.7, some_hours, (WHOLE_DAY,)), DAY, BRUSSELS, time(6), time(21))
        assert found == DayWeather(DAY, 3, 11, 63, 80, wind=20, sunrise=time(7, 26), by_the_hour=False)


def test_sunrise_comes_from_the_day_when_hours_are_known_too() -> None:
    found = day_weather(Forecast(51, 3.7, hours(5, 6), (WHOLE_DAY,)), DAY, BRUSSELS)
    assert found is not None
    assert (found.low, found.sunrise, found.by_the_hour) == (5, time(7, 26), True)


def test_rain_of_the_hour_that_ended_as_the_window_began_is_over() -> None:
    """Open-Meteo's precipitation is the sum of the preceding hour: https://open-meteo.com/en/docs"""
    at_six = replace(hours(5, start=MIDNIGHT + timedelta(hours=6))[0], wet_chance=90)
    at_seven = replace(at_six, at=at_six.at + timedelta(hours=1))
    assert weather(at_six, from_time=time(6), to_time=time(21)).wet_spells == ()
    assert weather(at_six, at_seven, from_time=time(6), to_time=time(21)).wet_spells == (WetSpell(time(6), time(7), 90),)


def test_wet_hours_in_a_row_are_one_spell_with_the_highest_chance() -> None:
    chances = [0, 60, 80, 50, 49, 90]
    given_hours = [replace(hour, wet_chance=chance) for hour, chance in zip(hours(*[5] * 6), chances, strict=True)]
    assert wet_spells(given_hours, BRUSSELS) == (WetSpell(time(0), time(3), 80), WetSpell(time(4), time(5), 90))


def test_a_trace_is_not_wet_and_a_tenth_of_a_millimetre_is() -> None:
    """WMO-No. 8, part I, chapter 6: below 0.1 mm it is a trace."""
    trace, tenth = (replace(hours(5)[0], millimetres=amount) for amount in (0.09, 0.1))
    assert wet_spells([trace], BRUSSELS) == ()
    assert wet_spells([tenth], BRUSSELS) == (WetSpell(time(23), time(0), None),)


@pytest.mark.parametrize(
    ("codes", "code"),
    [
        ([], None),
        ([0, 0, 3], 0),
        ([1, 1, 2, 2], 2),
        ([3] * 12 + [45], 45),
        ([0] * 12 + [61, 80], 80),
        ([61, 61, 95], 95),
    ],
)
def test_the_code_that_names_a_day(codes: list[int], code: int | None) -> None:
    """Once anything falls, the highest: Open-Meteo's daily weather_code is the most severe of the day."""
    assert day_code(codes) == code


def test_the_strongest_wind_and_gust_and_the_highest_uv_are_kept() -> None:
    first, second = hours(5, 6)
    found = weather(replace(first, wind=12, gusts=50, uv=1), replace(second, wind=18, gusts=30, uv=4))
    assert (found.wind, found.gusts, found.uv) == (18, 50, 4)


@given(
    st.sampled_from(["Europe/Brussels", "America/New_York", "Africa/Cairo", "Australia/Lord_Howe", "America/Havana", "Pacific/Chatham"]),
    st.dates(date(2026, 1, 2), date(2026, 12, 30)),
)
def test_the_hours_of_a_day_are_those_between_its_two_midnights_in_every_zone(zone: str, day: date) -> None:
    start, end = day_bounds(day, zone)
    first = datetime.combine(day - timedelta(days=1), time(0), UTC)
    given_hours = hours(*range(24 * 4), start=first)
    within = [hour.temperature for hour in given_hours if start <= hour.at <= end and hour.temperature is not None]
    found = day_weather(Forecast(0, 0, given_hours), day, zone)
    assert found is not None
    assert (found.low, found.high) == (min(within), max(within))
