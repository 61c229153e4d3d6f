"""Open-Meteo's JSON read into a Forecast. Pure; tolerant of what is missing, never of what is no forecast at all.

Source of names, units and times: https://open-meteo.com/en/docs
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Mapping
from datetime import UTC, datetime, timedelta, timezone, tzinfo
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bot.outside.faults import Fault, OutsideError
from bot.rules.weather import Forecast, ForecastDay, ForecastHour

TO_OUR_UNITS: Mapping[str, Callable[[float], float]] = {
    "°F": lambda fahrenheit: (fahrenheit - 32) / 1.8,
    "inch": lambda inches: inches * 25.4,
    "m/s": lambda metres_per_second: metres_per_second * 3.6,
    "mp/h": lambda miles_per_hour: miles_per_hour * 1.609344,
    "kn": lambda knots: knots * 1.852,
}
NEAR = timedelta(days=2)


class UnreadableForecast(OutsideError):
    """The text is no forecast in Open-Meteo's shape."""

    def __init__(self, detail: str) -> None:
        super().__init__(Fault.NOT_UNDERSTOOD, detail)


def read_forecast(payload: str | Mapping[str, object]) -> Forecast:
    """The forecast that ``payload`` holds, in degrees Celsius, millimetres and km/h whatever its units were.

    Times may be Unix times or local ISO times with ``utc_offset_seconds`` (or,
    failing that, ``timezone``). Columns that are missing, too short or hold
    null give None. Raises UnreadableForecast.
    """
    answer = _as_object(payload)
    zone = _zone(answer)
    hours = _hours(_Table(answer, "hourly", zone))
    days = _days(_Table(answer, "daily", zone), zone)
    if not hours and not days:
        raise UnreadableForecast("neither hourly nor daily times")
    return Forecast(_number(answer.get("latitude")), _number(answer.get("longitude")), hours, days)


class _Table:
    """One block of columns, ``hourly`` or ``daily``. Columns had other names in older answers, so several may be given."""

    def __init__(self, answer: Mapping[str, object], name: str, zone: tzinfo) -> None:
        self._columns = _mapping(answer.get(name))
        self._units = _mapping(answer.get(f"{name}_units"))
        self._zone = zone

    def times(self) -> list[tuple[datetime, int]]:
        """The UTC instant and row number of each row whose time can be read, in order of time."""
        instants = ((self.instant(row, "time"), row) for row in range(len(self._column("time"))))
        return sorted((at, row) for at, row in instants if at is not None)

    def value(self, row: int, *names: str) -> float | None:
        """The number in the first of the named columns that there is, in our unit."""
        name = next((name for name in names if name in self._columns), "")
        number = _number(self._cell(row, name))
        convert = TO_OUR_UNITS.get(str(self._units.get(name)))
        return number if number is None or convert is None else convert(number)

    def code(self, row: int) -> int | None:
        """The WMO weather code."""
        number = self.value(row, "weather_code", "weathercode")
        return None if number is None or number < 0 else int(number)

    def instant(self, row: int, name: str) -> datetime | None:
        """The UTC instant that a cell names."""
        cell = self._cell(row, name)
        try:
            if isinstance(cell, str):
                return _aware(datetime.fromisoformat(cell), self._zone).astimezone(UTC)
            seconds = _number(cell)
            return None if seconds is None else datetime.fromtimestamp(seconds, UTC)
        except (ValueError, OverflowError, OSError):
            return None

    def _column(self, name: str) -> list[object]:
        cells = self._columns.get(name)
        return cells if isinstance(cells, list) else []

    def _cell(self, row: int, name: str) -> object:
        cells = self._column(name)
        return cells[row] if row < len(cells) else None


def _hours(table: _Table) -> tuple[ForecastHour, ...]:
    return tuple(
        ForecastHour(
            at=at,
            temperature=table.value(row, "temperature_2m"),
            humidity=table.value(row, "relative_humidity_2m", "relativehumidity_2m"),
            wet_chance=table.value(row, "precipitation_probability"),
            millimetres=table.value(row, "precipitation"),
            code=table.code(row),
            wind=table.value(row, "wind_speed_10m", "windspeed_10m"),
            gusts=table.value(row, "wind_gusts_10m", "windgusts_10m"),
            uv=table.value(row, "uv_index"),
        )
        for at, row in table.times()
    )


def _days(table: _Table, zone: tzinfo) -> tuple[ForecastDay, ...]:
    return tuple(
        ForecastDay(
            # A daily Unix time is a UTC instant; the documentation says to apply the offset again to get its date.
            day=at.astimezone(zone).date(),
            low=table.value(row, "temperature_2m_min"),
            high=table.value(row, "temperature_2m_max"),
            wet_chance=table.value(row, "precipitation_probability_max"),
            millimetres=table.value(row, "precipitation_sum"),
            code=table.code(row),
            wind=table.value(row, "wind_speed_10m_max", "windspeed_10m_max"),
            gusts=table.value(row, "wind_gusts_10m_max", "windgusts_10m_max"),
            uv=table.value(row, "uv_index_max"),
            sunrise=_near(at, table.instant(row, "sunrise")),
            sunset=_near(at, table.instant(row, "sunset")),
        )
        for at, row in table.times()
    )


def _near(day_start: datetime, instant: datetime | None) -> datetime | None:
    """The instant, unless it lies far from its day: where the sun does not rise there is a filler instead of null."""
    return instant if instant is not None and abs(instant - day_start) < NEAR else None


def _as_object(payload: str | Mapping[str, object]) -> Mapping[str, object]:
    if not isinstance(payload, str):
        return payload
    try:
        answer = json.loads(payload)
    except (ValueError, RecursionError) as error:
        raise UnreadableForecast("not JSON") from error
    if not isinstance(answer, dict):
        raise UnreadableForecast("not a JSON object")
    return answer


def _zone(answer: Mapping[str, object]) -> tzinfo:
    """How the answer's local times are to be read.

    All times of an answer have one offset, also those after a clock change,
    so the offset is believed before the zone's name.
    """
    offset = _number(answer.get("utc_offset_seconds"))
    if offset is not None and abs(offset) < 24 * 3600:
        return timezone(timedelta(seconds=offset))
    try:
        return ZoneInfo(str(answer.get("timezone", "UTC")))
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return UTC


def _aware(moment: datetime, zone: tzinfo) -> datetime:
    return moment if moment.tzinfo is not None else moment.replace(tzinfo=zone)


def _mapping(value: object) -> Mapping[str, object]:
    return value if isinstance(value, dict) else {}


def _number(cell: object) -> float | None:
    if isinstance(cell, bool) or not isinstance(cell, (int, float)):
        return None
    return float(cell) if abs(cell) < 1e15 and math.isfinite(cell) else None
