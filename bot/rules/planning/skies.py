"""From a forecast to what the planner asks of it."""

from __future__ import annotations

from functools import lru_cache

from bot.rules.planning.asked import Sky
from bot.rules.spans import Span
from bot.rules.weather import HOUR, Forecast, ForecastHour, hours_during, is_wet


def skies_of(forecast: Forecast, window: Span) -> tuple[Sky, ...]:
    """The hours of ``forecast`` that touch ``window`` and say something about rain, in order of time.

    An hour is dry unless it would be a wet spell by itself: see
    ``weather.is_wet``.
    """
    return tuple(_sky(hour) for hour in hours_during(forecast, window.starts, window.ends) if _says_something(hour))


def _says_something(hour: ForecastHour) -> bool:
    return hour.wet_chance is not None or hour.millimetres is not None


# Everyone at a place has the same hours.
@lru_cache(maxsize=1024)
def _sky(hour: ForecastHour) -> Sky:
    dry = not is_wet(hour)
    unknown = 0 if dry else 100
    return Sky(Span(hour.at - HOUR, hour.at), unknown if hour.wet_chance is None else round(hour.wet_chance), dry)
