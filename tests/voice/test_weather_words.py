"""The weather of a day in words that fit a phone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.weather import DayWeather, WetSpell
from bot.voice.manners import Manners
from bot.voice.weather_words import LONGEST_LINE, SKIES, WINDY_KMH, sky_words, weather_line
from storage.records import ClockStyle, DateOrder

DAY = date(2026, 3, 2)
MANNERS = Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, DAY)
BY_TWELVE = replace(MANNERS, clock_style=ClockStyle.TWELVE)
AFTERNOON = WetSpell(time(14), time(17), 80)

# The codes that Open-Meteo gives: https://open-meteo.com/en/docs, "WMO Weather interpretation codes".
PUBLISHED = [0, 1, 2, 3, 45, 48, 51, 53, 55, 56, 57, 61, 63, 65, 66, 67, 71, 73, 75, 77, 80, 81, 82, 85, 86, 95, 96, 99]


def test_each_published_code_has_words_of_its_own() -> None:
    assert sorted(SKIES) == PUBLISHED
    assert len(set(SKIES.values())) == len(PUBLISHED)


def test_a_code_that_is_not_in_the_table_is_named_by_its_number() -> None:
    assert sky_words(42) == "weather code 42"


@pytest.mark.parametrize(
    ("day", "line"),
    [
        (DayWeather(DAY, 4, 9, 3, 5), "Overcast, 4 to 9 °C, 5 % chance of rain"),
        (DayWeather(DAY, -3, 2, 71, 30), "Light snow, -3 to 2 °C, 30 % chance of rain or snow"),
        (DayWeather(DAY, 4.2, 8.6, 63, 80, (AFTERNOON,)), "Rain, 4 to 9 °C, wet 14:00–17:00 (80 %)"),
        (DayWeather(DAY, 20, 31, 0), "Clear, 20 to 31 °C"),
        (DayWeather(DAY, 6.6, 7.4, 2), "Partly cloudy, 7 °C"),
        (DayWeather(DAY, 5, 9, 61, wet_spells=(WetSpell(time(8), time(9), None),)), "Light rain, 5 to 9 °C, wet 08:00–09:00"),
        (DayWeather(DAY, 5, 9, 3, wind=38.9, gusts=61.2), "Overcast, 5 to 9 °C, gusts to 61 km/h"),
        (DayWeather(DAY, 5, 9, 3, wind=WINDY_KMH), "Overcast, 5 to 9 °C, wind to 39 km/h"),
        (DayWeather(DAY, None, 9, None), "9 °C"),
        (DayWeather(DAY), "Incomplete forecast"),
    ],
)
def test_a_day_in_one_line(day: DayWeather, line: str) -> None:
    assert weather_line(day, MANNERS) == line


def test_two_spells_are_both_told_and_more_become_from_first_to_last() -> None:
    spells = (WetSpell(time(8), time(9), 60), WetSpell(time(12), time(13), 70), AFTERNOON)
    assert "wet 08:00–09:00 and 12:00–13:00 (70 %)" in weather_line(DayWeather(DAY, 4, 9, 3, wet_spells=spells[:2]), MANNERS)
    assert "wet at times 08:00–17:00 (80 %)" in weather_line(DayWeather(DAY, 4, 9, 3, wet_spells=spells), MANNERS)


def test_hours_of_rain_are_brief_by_the_12_hour_clock() -> None:
    spells = (WetSpell(time(11), time(13), 60), WetSpell(time(14, 30), time(17, 30), 70), WetSpell(time(23), time(0), 70))
    assert "wet 11 am–1 pm and 2:30–5:30 pm (70 %)" in weather_line(DayWeather(DAY, 4, 9, 3, wet_spells=spells[:2]), BY_TWELVE)
    assert "wet at times 11 am–midnight (70 %)" in weather_line(DayWeather(DAY, 4, 9, 3, wet_spells=spells), BY_TWELVE)


@given(
    st.sampled_from([*PUBLISHED, None, 1000]),
    st.floats(-60, 60) | st.none(),
    st.floats(-60, 60) | st.none(),
    st.integers(0, 100) | st.none(),
    st.lists(st.just(AFTERNOON), max_size=4).map(tuple),
    st.floats(0, 300) | st.none(),
    st.sampled_from([MANNERS, BY_TWELVE]),
)
def test_a_line_always_fits_and_starts_with_a_capital_or_a_number(
    code: int | None,
    low: float | None,
    high: float | None,
    chance: int | None,
    spells: tuple[WetSpell, ...],
    gusts: float | None,
    manners: Manners,
) -> None:
    line = weather_line(DayWeather(DAY, low, high, code, chance, spells, gusts=gusts), manners)
    assert 0 < len(line) <= LONGEST_LINE
    assert not line[0].islower()
