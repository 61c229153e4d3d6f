"""A forecast is read again as it was written."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime

from bot.rules.kept_forecast import read, written
from bot.rules.weather import Forecast, ForecastDay, ForecastHour

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)
HOUR = ForecastHour(NOON, 7.5, 80.0, 40.0, 0.2, 61, 20.0, 45.0, 1.5)
FORECAST = Forecast(51.05, 3.72, (HOUR, ForecastHour(NOON)), (ForecastDay(date(2026, 3, 2), 5.0, 8.0, sunrise=NOON),))


def test_what_was_written_is_read_the_same() -> None:
    assert read(written(FORECAST)) == FORECAST


def test_a_text_kept_by_an_earlier_version_with_one_more_value_an_hour_is_still_read() -> None:
    shape = json.loads(written(FORECAST))
    for hour in shape["hours"]:
        hour.insert(2, 2.0)
    assert read(json.dumps(shape)) == FORECAST
