"""From a forecast to what the planner asks of it."""

from __future__ import annotations

from bot.rules.planning.asked import Sky
from bot.rules.spans import Span, overlap
from bot.rules.weather import HOUR, Forecast, ForecastHour, hours_around, is_wet


def skies_of(forecast: Forecast, window: Span) -> tuple[Sky, ...]:
    """The hours of ``forecast`` that touch ``window`` and say something about rain, in order of time.

    An hour is dry unless it would be a wet spell by itself: see
    ``weather.is_wet``.
    """
    return tuple(
        _sky(hour) for hour in hours_around(forecast, window.starts, window.ends) if _says_something(hour) and overlap(_span(hour), window)
    )


def _says_something(hour: ForecastHour) -> bool:
    return hour.wet_chance is not None or hour.millimetres is not None


def _span(hour: ForecastHour) -> Span:
    # What a forecast says of rain is said of the hour that ends at its instant.
    return Span(hour.at - HOUR, hour.at)


def _sky(hour: ForecastHour) -> Sky:
    dry = not is_wet(hour)
    unknown = 0 if dry else 100
    return Sky(_span(hour), unknown if hour.wet_chance is None else round(hour.wet_chance), dry)
