"""A forecast as text, so that it can be kept, and read again without knowing whose shape it came in."""

from __future__ import annotations

import json
from dataclasses import astuple, fields
from datetime import date, datetime
from functools import lru_cache
from typing import Any

from bot.rules.weather import Forecast, ForecastDay, ForecastHour

HOUR_NUMBERS = tuple(each.name for each in fields(ForecastHour) if each.name != "at")
DAY_NUMBERS = tuple(each.name for each in fields(ForecastDay) if each.name not in ("day", "sunrise", "sunset"))


def written(forecast: Forecast) -> str:
    """The forecast as JSON: a list of values an hour and a day, in the order of the fields, instants as ISO text."""
    shape = {
        "place": [forecast.latitude, forecast.longitude],
        "hours": [astuple(hour) for hour in forecast.hours],
        "days": [astuple(day) for day in forecast.days],
    }
    return json.dumps(shape, default=lambda value: value.isoformat(), separators=(",", ":"))


@lru_cache(maxsize=16)
def read(text: str) -> Forecast:
    """The forecast that ``written`` wrote."""
    shape: dict[str, Any] = json.loads(text)
    latitude, longitude = shape["place"]
    return Forecast(latitude, longitude, tuple(map(_hour, shape["hours"])), tuple(map(_day, shape["days"])))


def _hour(values: list[Any]) -> ForecastHour:
    """One hour. Texts from before held the temperature as the service feels it, too, behind the temperature."""
    at, temperature, *rest = values
    return ForecastHour(datetime.fromisoformat(at), temperature, *rest[1 - len(HOUR_NUMBERS) :])


def _day(values: list[Any]) -> ForecastDay:
    day, *numbers, sunrise, sunset = values
    named = dict(zip(DAY_NUMBERS, numbers, strict=True))
    return ForecastDay(date.fromisoformat(day), **named, sunrise=_instant(sunrise), sunset=_instant(sunset))


def _instant(text: str | None) -> datetime | None:
    return None if text is None else datetime.fromisoformat(text)
