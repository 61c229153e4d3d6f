"""The weather of a week, from what was told of its days."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from bot.rules.weather import WET_CHANCE, DayWeather
from bot.rules.weeks import days_from
from storage.records import ToldWeather

FIRST_FALLING_CODE = 51
"""WMO code table 4677: from here on something falls, drizzle at least; below are states of the sky and fog."""


@dataclass(frozen=True, slots=True)
class WeekWeather:
    """Lowest and highest degrees Celsius, and the days that were to be wet, of the days known; ``unknown`` are the others."""

    low: float | None
    high: float | None
    wet: tuple[date, ...]
    unknown: tuple[date, ...]


def told_of(weather: DayWeather) -> ToldWeather:
    """What is kept of a day's weather. It was to be wet where wet hours were likely or, without hours, the whole day was."""
    by_code = weather.code is not None and weather.code >= FIRST_FALLING_CODE
    whole_day = not weather.by_the_hour and (by_code or (weather.wet_chance or 0) >= WET_CHANCE)
    return ToldWeather(weather.day, weather.low, weather.high, weather.code, bool(weather.wet_spells) or whole_day)


def week_weather(told: Iterable[ToldWeather], first: date, last: date) -> WeekWeather | None:
    """The weather of the days from ``first`` to ``last``, or None where nothing is known of any."""
    known = {each.day: each for each in told if first <= each.day <= last}
    if not known:
        return None
    days = days_from(first, last)
    return WeekWeather(
        min((each.low for each in known.values() if each.low is not None), default=None),
        max((each.high for each in known.values() if each.high is not None), default=None),
        tuple(day for day in days if day in known and known[day].wet),
        tuple(day for day in days if day not in known),
    )
