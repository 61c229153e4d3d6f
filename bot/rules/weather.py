"""What a forecast says about one local day: the values spoken in, and the arithmetic over them."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from operator import attrgetter

from bot.rules.local_time import day_bounds, first_instant_from, local

HOUR = timedelta(hours=1)
WET_CHANCE = 50  # Percent; common practice, no source.
WET_MILLIMETRES = 0.1  # In an hour; less than this is a trace (WMO-No. 8, part I, chapter 6).
_AT = attrgetter("at")
FIRST_NOTABLE_CODE = 45  # WMO code table 4677: below are states of the sky only, from here on fog and all that falls.


@dataclass(frozen=True, slots=True)
class ForecastHour:
    """One hour's values; None where the forecast has none.

    ``at`` is a UTC instant. Temperatures are in degrees Celsius, humidity and
    ``wet_chance`` in percent, wind in km/h. ``wet_chance`` and
    ``millimetres`` speak of the hour that ends at ``at``.
    """

    at: datetime
    temperature: float | None = None
    humidity: float | None = None
    wet_chance: float | None = None
    millimetres: float | None = None
    code: int | None = None
    wind: float | None = None
    gusts: float | None = None
    uv: float | None = None


@dataclass(frozen=True, slots=True)
class ForecastDay:
    """One local day's values, units as in ``ForecastHour``; sunrise and sunset are UTC instants."""

    day: date
    low: float | None = None
    high: float | None = None
    wet_chance: float | None = None
    millimetres: float | None = None
    code: int | None = None
    wind: float | None = None
    gusts: float | None = None
    uv: float | None = None
    sunrise: datetime | None = None
    sunset: datetime | None = None


@dataclass(frozen=True, slots=True)
class Forecast:
    """What is forecast for a place, in degrees (WGS 84); hours and days in order of time."""

    latitude: float | None
    longitude: float | None
    hours: tuple[ForecastHour, ...] = ()
    days: tuple[ForecastDay, ...] = ()


@dataclass(frozen=True, slots=True)
class WetSpell:
    """Hours in a row that are likely wet: local times, and the highest chance in percent where known."""

    start: time
    end: time
    chance: int | None


@dataclass(frozen=True, slots=True)
class DayWeather:
    """One day's weather within a window of it; None where unknown. Units as in ``ForecastHour``.

    ``code`` is the WMO code that names the day. ``by_the_hour`` is False when
    only the whole day's values were forecast; the wet hours are unknown then.
    """

    day: date
    low: float | None = None
    high: float | None = None
    code: int | None = None
    wet_chance: float | None = None
    wet_spells: tuple[WetSpell, ...] = ()
    wind: float | None = None
    gusts: float | None = None
    uv: float | None = None
    sunrise: time | None = None
    sunset: time | None = None
    by_the_hour: bool = True


def hours_during(forecast: Forecast, starts: datetime, ends: datetime) -> tuple[ForecastHour, ...]:
    """The hours of ``forecast`` that share time with what lasts from ``starts`` to ``ends``, UTC instants.

    What a forecast says is said of the hour that ends at its instant.
    """
    first = bisect_right(forecast.hours, starts, key=_AT)
    return forecast.hours[first : bisect_left(forecast.hours, ends + HOUR, first, key=_AT)]


def day_weather(forecast: Forecast, day: date, zone: str, from_time: time = time(0), to_time: time = time(0)) -> DayWeather | None:
    """The weather of the local ``day`` between two local times, or None when nothing is forecast for it.

    A ``to_time`` that is not after ``from_time`` means the end of the day.
    """
    whole_day = next((candidate for candidate in forecast.days if candidate.day == day), None)
    start, end = _window(day, zone, from_time, to_time)
    first = bisect_left(forecast.hours, start, key=_AT)
    hours = forecast.hours[first : bisect_right(forecast.hours, end, first, key=_AT)]
    if any(_says_something(hour) for hour in hours):
        return _from_hours(day, zone, hours, whole_day, start)
    return _from_whole_day(whole_day, zone) if whole_day is not None else None


def day_code(codes: Sequence[int]) -> int | None:
    """The code that names a stretch of hours: the gravest once anything is in the air or falls, else the most frequent.

    The gravest is the highest number, as in Open-Meteo's own daily
    ``weather_code``; of equally frequent ones the cloudier is taken.
    """
    if not codes:
        return None
    gravest = max(codes)
    if gravest >= FIRST_NOTABLE_CODE:
        return gravest
    counts = Counter(codes)
    return max(counts, key=lambda code: (counts[code], code))


def wet_spells(hours: Sequence[ForecastHour], zone: str) -> tuple[WetSpell, ...]:
    """The runs of likely wet hours among ``hours``, which are in order of time."""
    runs: list[list[ForecastHour]] = []
    for hour in filter(is_wet, hours):
        if runs and hour.at - runs[-1][-1].at <= HOUR:
            runs[-1].append(hour)
        else:
            runs.append([hour])
    return tuple(_spell(run, zone) for run in runs)


def is_wet(hour: ForecastHour) -> bool:
    """Whether the hour is likely wet."""
    return (hour.wet_chance or 0) >= WET_CHANCE or (hour.millimetres or 0) >= WET_MILLIMETRES


def _spell(run: Sequence[ForecastHour], zone: str) -> WetSpell:
    chance = _highest(hour.wet_chance for hour in run)
    return WetSpell(
        start=local(run[0].at - HOUR, zone).time(),
        end=local(run[-1].at, zone).time(),
        chance=None if chance is None else round(chance),
    )


def _window(day: date, zone: str, from_time: time, to_time: time) -> tuple[datetime, datetime]:
    starts = first_instant_from(day, from_time, zone)
    return starts, day_bounds(day, zone)[1] if to_time <= from_time else first_instant_from(day, to_time, zone)


def _says_something(hour: ForecastHour) -> bool:
    return any(value is not None for value in (hour.temperature, hour.code, hour.wet_chance, hour.millimetres, hour.wind))


def _from_hours(day: date, zone: str, hours: Sequence[ForecastHour], whole_day: ForecastDay | None, start: datetime) -> DayWeather:
    # The first hour may end just as the window begins: what fell in it is over by then.
    falling = [hour for hour in hours if hour.at > start]
    return DayWeather(
        day=day,
        low=_lowest(hour.temperature for hour in hours),
        high=_highest(hour.temperature for hour in hours),
        code=day_code([hour.code for hour in hours if hour.code is not None]),
        wet_chance=_highest(hour.wet_chance for hour in falling),
        wet_spells=wet_spells(falling, zone),
        wind=_highest(hour.wind for hour in hours),
        gusts=_highest(hour.gusts for hour in hours),
        uv=_highest(hour.uv for hour in hours),
        sunrise=_local_time(whole_day.sunrise, zone) if whole_day else None,
        sunset=_local_time(whole_day.sunset, zone) if whole_day else None,
    )


def _from_whole_day(whole_day: ForecastDay, zone: str) -> DayWeather | None:
    if all(value is None for value in (whole_day.low, whole_day.high, whole_day.code, whole_day.wet_chance)):
        return None
    return DayWeather(
        day=whole_day.day,
        low=whole_day.low,
        high=whole_day.high,
        code=whole_day.code,
        wet_chance=whole_day.wet_chance,
        wind=whole_day.wind,
        gusts=whole_day.gusts,
        uv=whole_day.uv,
        sunrise=_local_time(whole_day.sunrise, zone),
        sunset=_local_time(whole_day.sunset, zone),
        by_the_hour=False,
    )


def _local_time(instant: datetime | None, zone: str) -> time | None:
    return None if instant is None else local(instant, zone).time()


def _lowest(values: Iterable[float | None]) -> float | None:
    return min((value for value in values if value is not None), default=None)


def _highest(values: Iterable[float | None]) -> float | None:
    return max((value for value in values if value is not None), default=None)
