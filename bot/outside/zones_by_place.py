"""Which time zone a place is in, and where the cities lie that zones are named after.

The cities and their coordinates are those of the tz database itself
(zone.tab and iso3166.tab, https://www.iana.org/time-zones), which comes with
the tzdata package.
"""

from __future__ import annotations

import re
import subprocess  # nosec B404
import sys
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from math import asin, cos, radians, sin, sqrt
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

ASK_THE_MAP = "import sys, tzfpy; print(tzfpy.get_tz(float(sys.argv[1]), float(sys.argv[2])))"
MAP_SECONDS = 20
ISO_6709 = re.compile(r"([+-])(\d{2})(\d{2})(\d{2})?([+-])(\d{3})(\d{2})(\d{2})?")


@dataclass(frozen=True, slots=True)
class ZoneCity:
    """The city that a zone is named after; degrees (WGS 84)."""

    name: str
    country: str
    latitude: float
    longitude: float
    zone: str


@lru_cache(maxsize=256)
def zone_at(latitude: float, longitude: float) -> str:
    """The tz database's name of the zone at a place in degrees; at sea, that of the nearest zone's city."""
    zone = _zone_on_map(latitude, longitude)
    return zone if _is_on_land(zone) else nearest_city(latitude, longitude).zone


def nearest_city(latitude: float, longitude: float) -> ZoneCity:
    """The zone's city that is nearest as the crow flies."""
    return min(zone_cities(), key=lambda city: _distance(latitude, longitude, city.latitude, city.longitude))


@cache
def zone_cities() -> tuple[ZoneCity, ...]:
    """Every city of zone.tab, which has at least one a country."""
    countries = dict(_rows("iso3166.tab"))
    return tuple(_city(row, countries) for row in _rows("zone.tab"))


def _zone_on_map(latitude: float, longitude: float) -> str:
    """What the map says, or nothing when it cannot be asked.

    The map takes 36 MB that this process would keep for good; a process of
    its own takes a tenth of a second and gives them back.
    """
    question = [sys.executable, "-c", ASK_THE_MAP, str(longitude), str(latitude)]
    try:
        # Nothing in the question comes from outside but two numbers, and no shell reads it.
        answer = subprocess.run(question, capture_output=True, text=True, timeout=MAP_SECONDS, check=True)  # nosec B603
        return answer.stdout.strip()
    except (OSError, subprocess.SubprocessError):
        return ""


def _is_on_land(zone: str) -> bool:
    if not zone or zone.startswith("Etc/"):
        return False
    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError):
        # The map may know a zone that the installed tz database does not.
        return False
    return True


def _rows(table: str) -> list[list[str]]:
    text = files("tzdata").joinpath("zoneinfo", table).read_text("utf-8")
    return [line.split("\t") for line in text.splitlines() if line and not line.startswith("#")]


def _city(row: list[str], countries: dict[str, str]) -> ZoneCity:
    country, coordinates, zone = row[:3]
    latitude, longitude = degrees(coordinates)
    return ZoneCity(zone.rpartition("/")[2].replace("_", " "), countries[country], latitude, longitude, zone)


def degrees(coordinates: str) -> tuple[float, float]:
    """Latitude and longitude in degrees from ISO 6709's ±DDMM±DDDMM or ±DDMMSS±DDDMMSS. Raises ValueError."""
    match = ISO_6709.fullmatch(coordinates)
    if match is None:
        raise ValueError(coordinates)
    parts = match.groups(default="0")
    return _signed(*parts[:4]), _signed(*parts[4:])


def _signed(sign: str, whole: str, minutes: str, seconds: str) -> float:
    size = int(whole) + int(minutes) / 60 + int(seconds) / 3600
    return -size if sign == "-" else size


def _distance(latitude: float, longitude: float, other_latitude: float, other_longitude: float) -> float:
    """The angle between two places in radians, by the haversine formula (R. W. Sinnott, Sky and Telescope 68, 1984)."""
    north, other_north = radians(latitude), radians(other_latitude)
    across = sin(radians(other_longitude - longitude) / 2) ** 2
    along = sin((other_north - north) / 2) ** 2
    return 2 * asin(min(1.0, sqrt(along + cos(north) * cos(other_north) * across)))
