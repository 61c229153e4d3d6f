"""Answers in Open-Meteo's shape, made up for tests."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any
from urllib.parse import parse_qsl, urlsplit

import responses

MIDNIGHT = datetime(2026, 3, 1, 23, tzinfo=UTC)
"""The start of the 2nd of March 2026 in Brussels."""


def unixtime_answer(hours: int = 48) -> dict[str, Any]:
    """An answer as ``OpenMeteo`` asks for it: Unix times, two days; it rains from 14:00 to 16:00 on the first."""
    count = range(hours)
    return {
        "latitude": 51.04,
        "longitude": 3.72,
        "utc_offset_seconds": 3600,
        "timezone": "Europe/Brussels",
        "hourly_units": {"time": "unixtime", "temperature_2m": "°C", "wind_speed_10m": "km/h", "precipitation": "mm"},
        "hourly": {
            "time": [int((MIDNIGHT + timedelta(hours=hour)).timestamp()) for hour in count],
            "temperature_2m": [4.0 + hour % 24 / 4 for hour in count],
            "relative_humidity_2m": [80 for _ in count],
            "precipitation_probability": [70 if hour in (15, 16) else 5 for hour in count],
            "precipitation": [0.6 if hour in (15, 16) else 0.0 for hour in count],
            "weather_code": [61 if hour in (15, 16) else 3 for hour in count],
            "wind_speed_10m": [18.0 for _ in count],
            "wind_gusts_10m": [43.2 if hour == 15 else 30.0 for hour in count],
            "uv_index": [1.5 for _ in count],
        },
        "daily_units": {"time": "unixtime", "temperature_2m_max": "°C"},
        "daily": {
            "time": [int((MIDNIGHT + timedelta(days=day)).timestamp()) for day in range(2)],
            "temperature_2m_max": [9.8, 9.8],
            "temperature_2m_min": [4.0, 4.0],
            "precipitation_probability_max": [70, 5],
            "precipitation_sum": [1.2, 0.0],
            "weather_code": [61, 3],
            "wind_speed_10m_max": [18.0, 18.0],
            "wind_gusts_10m_max": [43.2, 30.0],
            "uv_index_max": [1.5, 1.5],
            "sunrise": [int(datetime(2026, 3, 2, 6, 26, tzinfo=UTC).timestamp())] * 2,
            "sunset": [int(datetime(2026, 3, 2, 17, 25, tzinfo=UTC).timestamp())] * 2,
        },
    }


def iso_answer() -> dict[str, Any]:
    """The same with local ISO times, as Open-Meteo answers by default."""
    answer = unixtime_answer()
    first = datetime(2026, 3, 2, tzinfo=UTC)
    answer["hourly"]["time"] = [f"{first + timedelta(hours=hour):%Y-%m-%dT%H:%M}" for hour in range(48)]
    answer["daily"]["time"] = ["2026-03-02", "2026-03-03"]
    answer["daily"]["sunrise"] = ["2026-03-02T07:26"] * 2
    answer["daily"]["sunset"] = ["2026-03-02T18:25"] * 2
    return answer


def asked() -> dict[str, str]:
    """The query of the first question that ``responses`` answered."""
    return dict(parse_qsl(urlsplit(str(responses.calls[0].request.url)).query))
