from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.weather import ForecastHour
from bot.rules.weather_danger import Caution, Danger, Level, gravest
from bot.rules.weather_felt import heat_index, wind_chill
from bot.rules.weather_units import celsius, fahrenheit, whole
from tests.rules.made import utc

MILD = ForecastHour(utc("2026-07-01 12:00"), temperature=20, humidity=50, wind=10, gusts=20, uv=2, code=3, millimetres=0.0)


def levels(hour: ForecastHour) -> dict[Danger, Level]:
    return {caution.danger: caution.level for caution in gravest([hour])}


def test_a_mild_hour_and_an_hour_without_values_need_no_care() -> None:
    assert gravest([MILD]) == ()
    assert gravest([ForecastHour(MILD.at)]) == ()


@pytest.mark.parametrize(
    ("temperature", "humidity", "level"),
    [(26, 40, None), (28, 60, Level.CAUTION), (33, 50, Level.GREAT_CAUTION), (35, 60, Level.DANGER), (38, 70, Level.GREAT_DANGER)],
)
def test_heat_is_felt_with_the_humidity(temperature: float, humidity: float, level: Level | None) -> None:
    # Source: NWS categories: caution from 80, extreme caution from 90, danger from 103, extreme danger from 125 degrees Fahrenheit.
    # By the NWS chart 35 degrees (95 F) and 60 % are about 114 F, and 38 degrees (100 F) and 70 % are beyond 136 F.
    assert levels(replace(MILD, temperature=temperature, humidity=humidity)).get(Danger.HEAT) == level


@pytest.mark.parametrize(
    ("temperature", "wind", "level"),
    [
        (-3, 20, None),
        (-5, 20, Level.CAUTION),
        (-18, 20, Level.CAUTION),
        (-20, 30, Level.GREAT_CAUTION),
        (-30, 20, Level.DANGER),
        (-35, 40, Level.GREAT_DANGER),
        (-12, 0, Level.CAUTION),
        (-9, 0, None),
    ],
)
def test_cold_is_felt_with_the_wind(temperature: float, wind: float, level: Level | None) -> None:
    # Source: Environment Canada, wind chill hazards: from -10, -28, -40 and -48.
    assert levels(replace(MILD, temperature=temperature, wind=wind, gusts=None)).get(Danger.COLD) == level


@pytest.mark.parametrize(("uv", "level"), [(2.4, None), (2.5, Level.CAUTION), (7.4, Level.CAUTION), (7.5, Level.GREAT_CAUTION)])
def test_the_sun_asks_for_protection_from_three_and_for_more_from_eight(uv: float, level: Level | None) -> None:
    # Source: WHO 2002; rounded to the nearest whole number first.
    assert levels(replace(MILD, uv=uv)).get(Danger.SUN) == level


@pytest.mark.parametrize(
    ("wind", "gusts", "level"),
    [
        (38, 60, None),
        (39, None, Level.CAUTION),
        (62, None, Level.GREAT_CAUTION),
        (75, None, Level.DANGER),
        (89, None, Level.GREAT_DANGER),
        (20, 74, Level.GREAT_CAUTION),
        (40, 93, Level.DANGER),
    ],
)
def test_wind_and_gusts_are_one_danger_at_the_graver_level(wind: float, gusts: float | None, level: Level | None) -> None:
    # Source: Beaufort, forces 6, 8, 9 and 10; NWS wind advisory and high wind warning, 46 and 58 mph.
    assert levels(replace(MILD, wind=wind, gusts=gusts)).get(Danger.WIND) == level


@pytest.mark.parametrize(
    ("code", "danger", "level"),
    [
        (45, Danger.FOG, Level.CAUTION),
        (66, Danger.ICE, Level.GREAT_CAUTION),
        (75, Danger.SNOW, Level.GREAT_CAUTION),
        (82, Danger.RAIN, Level.DANGER),
        (95, Danger.THUNDER, Level.GREAT_CAUTION),
        (99, Danger.THUNDER, Level.DANGER),
    ],
)
def test_what_the_weather_code_names_is_a_danger_by_itself(code: int, danger: Danger, level: Level) -> None:
    assert gravest([replace(MILD, code=code)]) == (Caution(danger, level),)


def test_rain_counts_by_how_much_falls_in_the_hour_unless_it_falls_as_snow() -> None:
    # Source: WMO-No. 8: moderate from 2.5, heavy from 10, violent from 50 mm/h.
    falling = [levels(replace(MILD, millimetres=millimetres)).get(Danger.RAIN) for millimetres in (2.4, 2.5, 10, 50)]

    assert falling == [None, Level.CAUTION, Level.GREAT_CAUTION, Level.DANGER]
    assert levels(replace(MILD, millimetres=3, code=73)) == {Danger.SNOW: Level.CAUTION}


def test_over_several_hours_the_gravest_of_each_danger_is_told_with_its_value() -> None:
    hours = [replace(MILD, wind=40), replace(MILD, wind=65, uv=8.2), replace(MILD, wind=63, uv=9)]

    assert gravest(hours) == (Caution(Danger.SUN, Level.GREAT_CAUTION, 9), Caution(Danger.WIND, Level.GREAT_CAUTION, 65))


def test_of_two_cold_hours_the_colder_is_told() -> None:
    hours = [replace(MILD, temperature=-12, wind=0, gusts=None), replace(MILD, temperature=-15, wind=0, gusts=None)]

    assert gravest(hours) == (Caution(Danger.COLD, Level.CAUTION, -15),)


@given(st.floats(-40, 45), st.floats(0, 100))
def test_the_heat_index_is_near_the_air_until_it_is_warm(air: float, humidity: float) -> None:
    assert air > 25 or abs(heat_index(air, humidity) - air) < 10


@given(st.floats(27, 43), st.floats(40, 95), st.floats(0.1, 5))
def test_damper_air_never_feels_cooler_in_the_heat(air: float, humidity: float, more: float) -> None:
    assert heat_index(air, humidity + more) >= heat_index(air, humidity) - 0.6


@given(st.floats(-50, 10), st.floats(5, 100), st.floats(0.1, 30))
def test_more_wind_never_feels_warmer_in_the_cold(air: float, wind: float, more: float) -> None:
    less, windier = wind_chill(air, wind), wind_chill(air, wind + more)

    assert less is not None
    assert windier is not None
    assert windier < less


@given(st.floats(-100, 100))
def test_degrees_survive_there_and_back(degrees: float) -> None:
    assert celsius(fahrenheit(degrees)) == pytest.approx(degrees, abs=1e-9)


def test_units_are_those_of_the_tables() -> None:
    # Source: NIST SP 811: water freezes at 32 and boils at 212 degrees Fahrenheit.
    assert (fahrenheit(0), fahrenheit(100), celsius(-40)) == (32, 212, -40)
    assert [whole(value) for value in (2.4, 2.5, 3.5, -0.5)] == [2, 3, 4, 0]
