"""Where forecasts come from: Open-Meteo, or a file in its shape."""

from __future__ import annotations

from pathlib import Path
from typing import Protocol
from urllib.parse import urlsplit, urlunsplit

from bot.outside.faults import Fault, ForecastUnavailable, OutsideError
from bot.outside.forecast_reading import read_forecast
from bot.outside.web_service import WebService

OPEN_METEO = "https://api.open-meteo.com"
MOST_DAYS = 16
HOURLY = "temperature_2m,relative_humidity_2m,precipitation_probability,precipitation,weather_code,wind_speed_10m,wind_gusts_10m,uv_index"
DAILY = (
    "temperature_2m_max,temperature_2m_min,precipitation_probability_max,precipitation_sum,"
    "weather_code,wind_speed_10m_max,wind_gusts_10m_max,uv_index_max,sunrise,sunset"
)


class ForecastSource(Protocol):
    """Gives forecasts in Open-Meteo's JSON, as text that may be kept and read later with ``read_forecast``."""

    def fetch(self, latitude: float, longitude: float, /) -> str:
        """The forecast for a place in degrees (WGS 84). May block. Raises ForecastUnavailable."""


class OpenMeteo:
    """Asks Open-Meteo's forecast service, or another at ``url`` that answers alike.

    Source: https://open-meteo.com/en/docs
    """

    def __init__(self, url: str = OPEN_METEO, days: int = 8, web: WebService | None = None) -> None:
        self._days = min(days, MOST_DAYS)
        self._web = web or WebService(with_path(url, "/v1/forecast"))

    def fetch(self, latitude: float, longitude: float, /) -> str:
        """The forecast from today's local midnight on. Raises ForecastUnavailable."""
        try:
            text = self._web.ask(self._question(latitude, longitude))
            read_forecast(text)
        except OutsideError as error:
            raise ForecastUnavailable(error.fault, error.detail, error.seconds) from error
        return text

    def _question(self, latitude: float, longitude: float) -> dict[str, str]:
        # Two decimals are about a kilometre: finer than any forecast, and less telling than a home address.
        return {
            "latitude": f"{latitude:.2f}",
            "longitude": f"{longitude:.2f}",
            "hourly": HOURLY,
            "daily": DAILY,
            "timeformat": "unixtime",
            "timezone": "auto",
            "forecast_days": str(self._days),
        }


class ForecastFile:
    """The forecast of a file, wherever it is asked for; with no file it cannot be reached."""

    def __init__(self, path: Path | None) -> None:
        self._path = path

    def fetch(self, _latitude: float, _longitude: float, /) -> str:
        """What the file holds. Raises ForecastUnavailable."""
        if self._path is None:
            raise ForecastUnavailable(Fault.NOT_REACHED)
        try:
            text = self._path.read_text("utf-8")
            read_forecast(text)
        except (OSError, UnicodeDecodeError) as error:
            raise ForecastUnavailable(Fault.NOT_REACHED, f"{self._path.name}: {error}") from error
        except OutsideError as error:
            raise ForecastUnavailable(error.fault, f"{self._path.name}: {error.detail}") from error
        return text


def with_path(url: str, path: str) -> str:
    """``url`` with the service's own ``path`` where it names none."""
    parts = urlsplit(url)
    return urlunsplit(parts._replace(path=path)) if parts.path in ("", "/") else url
