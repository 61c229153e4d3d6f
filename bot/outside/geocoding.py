"""Places by their name: Open-Meteo's gazetteer, or the cities of the tz database where there is no network."""

from __future__ import annotations

import json
import unicodedata
from dataclasses import dataclass
from typing import Protocol

from bot.outside.faults import Fault, OutsideError, PlacesUnavailable
from bot.outside.forecast import with_path
from bot.outside.web_service import WebService
from bot.outside.zones_by_place import ZoneCity, zone_at, zone_cities
from bot.rules.tame_text import tame

OPEN_METEO_GEOCODING = "https://geocoding-api.open-meteo.com"
SHORTEST_NAME = 2
MOST_FOUND = 5


@dataclass(frozen=True, slots=True)
class FoundPlace:
    """A place that a name may mean; degrees (WGS 84); ``zone`` is the tz database's name."""

    name: str
    country: str
    latitude: float
    longitude: float
    zone: str


class Gazetteer(Protocol):
    """Finds places by name."""

    def find(self, name: str) -> tuple[FoundPlace, ...]:
        """The places that ``name`` may mean, likeliest first; none when there is no such place. Raises PlacesUnavailable."""


class OpenMeteoGeocoding:
    """Asks Open-Meteo's gazetteer, or another at ``url`` that answers alike.

    Source: https://open-meteo.com/en/docs/geocoding-api
    """

    def __init__(self, url: str = OPEN_METEO_GEOCODING, web: WebService | None = None) -> None:
        self._web = web or WebService(with_path(url, "/v1/search"))

    def find(self, name: str) -> tuple[FoundPlace, ...]:
        """The places that ``name`` may mean, largest first. May block. Raises PlacesUnavailable."""
        if len(name.strip()) < SHORTEST_NAME:
            return ()
        try:
            text = self._web.ask({"name": name.strip(), "count": str(MOST_FOUND), "language": "en", "format": "json"})
        except OutsideError as error:
            raise PlacesUnavailable(error.fault, error.detail, error.seconds) from error
        return _read_places(text)


class NoGeocoding:
    """Knows only the cities that time zones are named after, and needs no network for it."""

    def find(self, name: str) -> tuple[FoundPlace, ...]:
        """The city of that name, however it is written."""
        wanted = _plain(name)
        return tuple(_found(city) for city in zone_cities() if _plain(city.name) == wanted)


def _found(city: ZoneCity) -> FoundPlace:
    return FoundPlace(city.name, city.country, city.latitude, city.longitude, city.zone)


def _plain(name: str) -> str:
    """The name without accents, case, punctuation and needless spaces."""
    letters = unicodedata.normalize("NFKD", name.casefold())
    return "".join(letter for letter in letters if letter.isalnum())


def _read_places(text: str) -> tuple[FoundPlace, ...]:
    """The places of an answer. One without a match leaves ``results`` out."""
    try:
        answer = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise PlacesUnavailable(Fault.NOT_UNDERSTOOD, "not JSON") from error
    results = answer.get("results", []) if isinstance(answer, dict) else None
    if not isinstance(results, list):
        raise PlacesUnavailable(Fault.NOT_UNDERSTOOD, "no list of results")
    places = (_read_place(result) for result in results)
    return tuple(place for place in places if place is not None)


def _read_place(result: object) -> FoundPlace | None:
    """One place, or None when its name or whereabouts are missing."""
    if not isinstance(result, dict):
        return None
    name, latitude, longitude = result.get("name"), result.get("latitude"), result.get("longitude")
    if not (isinstance(name, str) and isinstance(latitude, (int, float)) and isinstance(longitude, (int, float))):
        return None
    if not (abs(latitude) <= 90 and abs(longitude) <= 180):
        return None
    zone = result.get("timezone")
    return FoundPlace(
        name=tame(name),
        country=tame(str(result.get("country") or "")),
        latitude=float(latitude),
        longitude=float(longitude),
        zone=zone if isinstance(zone, str) and zone else zone_at(latitude, longitude),
    )
