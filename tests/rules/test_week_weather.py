"""A week's weather from what was told of its days."""

from __future__ import annotations

from datetime import time, timedelta

from bot.rules.weather import DayWeather, WetSpell
from bot.rules.week_weather import WeekWeather, told_of, week_weather
from storage.records import ToldWeather
from tests.rules.made import MONDAY

TUESDAY, SUNDAY = MONDAY + timedelta(days=1), MONDAY + timedelta(days=6)


def test_lowest_highest_wet_days_and_those_not_known_are_told() -> None:
    told = [
        ToldWeather(MONDAY, 3.0, 9.0, 61, True),
        ToldWeather(TUESDAY, -1.5, 6.0, 3),
        ToldWeather(MONDAY + timedelta(days=4), None, 11.0),
        ToldWeather(SUNDAY, 2.0, None, 80, True),
    ]
    unknown = tuple(MONDAY + timedelta(days=n) for n in (2, 3, 5))
    assert week_weather(told, MONDAY, SUNDAY) == WeekWeather(-1.5, 11.0, (MONDAY, SUNDAY), unknown)


def test_of_a_week_of_which_nothing_is_known_nothing_is_said() -> None:
    assert week_weather([], MONDAY, SUNDAY) is None
    assert week_weather([ToldWeather(MONDAY - timedelta(days=1))], MONDAY, SUNDAY) is None


def test_a_day_is_wet_by_its_hours_where_they_are_known() -> None:
    spell = WetSpell(time(9), time(11), 80)
    assert told_of(DayWeather(MONDAY, 1.0, 2.0, 3, wet_spells=(spell,))) == ToldWeather(MONDAY, 1.0, 2.0, 3, True)
    assert not told_of(DayWeather(MONDAY, code=61)).wet


def test_without_hours_the_whole_day_tells() -> None:
    assert told_of(DayWeather(MONDAY, code=51, by_the_hour=False)).wet
    assert told_of(DayWeather(MONDAY, wet_chance=50, by_the_hour=False)).wet
    assert not told_of(DayWeather(MONDAY, code=48, wet_chance=49, by_the_hour=False)).wet
