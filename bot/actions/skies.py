"""The weather of a day, from the forecast that was kept for the person's place."""

from __future__ import annotations

from datetime import date, time, timedelta
from functools import lru_cache
from typing import Literal

from bot.rules.kept_forecast import read
from bot.rules.weather import DayWeather, Forecast, day_weather, hours_during
from bot.rules.weather_danger import Caution, Level, gravest
from storage.desk import Desk
from storage.records import Occurrence, Place

FRESH = timedelta(hours=12)
"""A forecast older than this is not shown."""

Missing = Literal["no place", "no forecast", "not asked"]


def place_key(place: Place) -> str:
    """What the forecast of a place is kept under: degrees to two places, about a kilometre."""
    latitude, longitude = place
    return f"{latitude:.2f},{longitude:.2f}"


def weather_on(desk: Desk, day: date) -> tuple[DayWeather | None, Missing]:
    """The weather of the waking hours of ``day``, and why there is none."""
    person = desk.person
    if person.place is None:
        return None, "no place"
    kept = _kept_for(desk)
    if kept is None:
        return None, "no forecast"
    return _weather_of(kept, day, person.zone, person.waking_start, person.waking_end), "no forecast"


# Everyone at a place who wakes at the same hours has the same weather.
@lru_cache(maxsize=64)
def _weather_of(kept: str, day: date, zone: str, from_time: time, to_time: time) -> DayWeather | None:
    return day_weather(read(kept), day, zone, from_time, to_time)


def cautions_for(desk: Desk, occurrences: tuple[Occurrence, ...]) -> tuple[tuple[Occurrence, tuple[Caution, ...]], ...]:
    """What to take care of during each commitment: outdoors anything, elsewhere what is grave on the way there, too."""
    forecast = forecast_for(desk)
    if forecast is None:
        return ()
    found = []
    for each in occurrences:
        least = Level.CAUTION if each.commitment.outdoors else Level.DANGER
        found_then = gravest(hours_during(forecast, each.starts, each.ends))
        grave = tuple(caution for caution in found_then if caution.level >= least)
        if grave and not each.commitment.all_day:
            found.append((each, grave))
    return tuple(found)


def forecast_for(desk: Desk) -> Forecast | None:
    """The forecast that is kept for the person's place, unless it is too old."""
    kept = _kept_for(desk)
    return None if kept is None else read(kept)


def _kept_for(desk: Desk) -> str | None:
    """The same as the text it is kept as."""
    place = desk.person.place
    kept = desk.forecasts.get(place_key(place)) if place else None
    return None if kept is None or desk.now - kept[0] > FRESH else kept[1]
