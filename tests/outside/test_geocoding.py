"""The gazetteers, and the zones of places. Source of the answer's shape: https://open-meteo.com/en/docs/geocoding-api"""

from __future__ import annotations

from typing import Any

import pytest
import responses
from hypothesis import given
from hypothesis import strategies as st

from bot.outside import zones_by_place
from bot.outside.faults import Fault, PlacesUnavailable
from bot.outside.geocoding import OPEN_METEO_GEOCODING, FoundPlace, NoGeocoding, OpenMeteoGeocoding
from bot.outside.web_service import Patience, WebService
from bot.outside.zones_by_place import degrees, nearest_city, zone_at, zone_cities
from tests.outside.answers import asked

URL = f"{OPEN_METEO_GEOCODING}/v1/search"
GHENT = {"id": 2797656, "name": "Ghent", "latitude": 51.05, "longitude": 3.71667, "country": "Belgium", "timezone": "Europe/Brussels"}


def gazetteer() -> OpenMeteoGeocoding:
    return OpenMeteoGeocoding(web=WebService(URL, Patience(tries=1)))


@responses.activate
def test_places_are_found_in_the_services_order() -> None:
    responses.get(URL, json={"results": [GHENT, {**GHENT, "name": "Ghent", "country": "United States", "timezone": "America/New_York"}]})
    found = OpenMeteoGeocoding().find(" Ghent ")
    assert found[0] == FoundPlace("Ghent", "Belgium", 51.05, 3.71667, "Europe/Brussels")
    assert found[1].zone == "America/New_York"
    assert asked()["name"] == "Ghent"


@responses.activate
def test_no_match_leaves_the_results_out_and_finds_nothing() -> None:
    responses.get(URL, json={"generationtime_ms": 0.5})
    assert gazetteer().find("Xyzzy") == ()


def test_a_name_of_one_letter_is_not_even_asked_for() -> None:
    assert gazetteer().find("G") == ()


@responses.activate
@pytest.mark.parametrize(
    "change", [{"name": None}, {"latitude": None}, {"longitude": "3.7"}, {"latitude": 91}, {"longitude": float("nan")}]
)
def test_a_place_without_a_name_or_whereabouts_is_left_out(change: dict[str, Any]) -> None:
    responses.get(URL, json={"results": [{**GHENT, **change}, "no place", GHENT]})
    assert [place.name for place in gazetteer().find("Ghent")] == ["Ghent"]


@responses.activate
def test_a_place_without_a_zone_gets_that_of_its_whereabouts() -> None:
    responses.get(URL, json={"results": [{**GHENT, "timezone": None}]})
    assert gazetteer().find("Ghent")[0].zone == "Europe/Brussels"


@responses.activate
@pytest.mark.parametrize(
    ("status", "body", "fault"),
    [
        (400, "{}", Fault.REFUSED),
        (429, "", Fault.TOO_MANY_REQUESTS),
        (503, "", Fault.SERVER_ERROR),
        (200, "<html>", Fault.NOT_UNDERSTOOD),
        (200, "[]", Fault.NOT_UNDERSTOOD),
        (200, '{"results": 7}', Fault.NOT_UNDERSTOOD),
    ],
)
def test_every_fault_is_one_kind_of_error(status: int, body: str, fault: Fault) -> None:
    responses.get(URL, status=status, body=body)
    with pytest.raises(PlacesUnavailable) as caught:
        gazetteer().find("Ghent")
    assert caught.value.fault is fault


@pytest.mark.parametrize(
    ("name", "country", "zone"),
    [
        ("Brussels", "Belgium", "Europe/Brussels"),
        ("new york", "United States", "America/New_York"),
        ("São Paulo", "Brazil", "America/Sao_Paulo"),
        ("Port-au-Prince", "Haiti", "America/Port-au-Prince"),
        ("LORD HOWE", "Australia", "Australia/Lord_Howe"),
    ],
)
def test_without_a_network_the_cities_of_zones_are_known(name: str, country: str, zone: str) -> None:
    (found,) = NoGeocoding().find(name)
    assert (found.country, found.zone) == (country, zone)


def test_without_a_network_other_towns_are_not_known() -> None:
    assert NoGeocoding().find("Ghent") == NoGeocoding().find("") == ()


def test_a_citys_coordinates_are_those_of_zone_tab() -> None:
    """zone.tab: BE +5050+00420 Europe/Brussels; AU -3133+15905 Australia/Lord_Howe."""
    (brussels,), (lord_howe,) = NoGeocoding().find("Brussels"), NoGeocoding().find("Lord Howe")
    assert (brussels.latitude, brussels.longitude) == pytest.approx((50 + 50 / 60, 4 + 20 / 60))
    assert (lord_howe.latitude, lord_howe.longitude) == pytest.approx((-31.55, 159 + 5 / 60))


def test_degrees_are_read_with_and_without_seconds() -> None:
    """The two forms that zone.tab's own heading describes."""
    assert degrees("+404251-0740023") == pytest.approx((40.714167, -74.006389), abs=1e-6)
    with pytest.raises(ValueError, match="north"):
        degrees("north")


@pytest.mark.parametrize(
    ("latitude", "longitude", "zone"),
    [
        (51.05, 3.72, "Europe/Brussels"),
        (40.71, -74.01, "America/New_York"),
        (30.04, 31.24, "Africa/Cairo"),
        (-31.55, 159.08, "Australia/Lord_Howe"),
        (23.13, -82.36, "America/Havana"),
        (-43.95, -176.56, "Pacific/Chatham"),
    ],
)
def test_a_place_on_land_is_in_its_own_zone(latitude: float, longitude: float, zone: str) -> None:
    """The cities' zones as zone.tab has them; Ghent by its country."""
    assert zone_at(latitude, longitude) == zone


def test_at_sea_the_nearest_city_decides() -> None:
    """Mid-Atlantic, south of the Azores: Ponta Delgada is the nearest city of zone.tab."""
    assert zone_at(33.0, -27.0) == "Atlantic/Azores"


def test_without_the_map_the_nearest_city_decides(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(zones_by_place, "ASK_THE_MAP", "raise SystemExit(1)")
    zones_by_place.zone_at.cache_clear()
    assert zone_at(50.8, 4.4) == "Europe/Brussels"
    zones_by_place.zone_at.cache_clear()


def test_nearest_counts_across_the_date_line() -> None:
    assert nearest_city(-17.0, -179.9).zone == "Pacific/Fiji"


@given(st.sampled_from(zone_cities()))
def test_each_city_is_the_nearest_to_itself(index: Any) -> None:
    assert nearest_city(index.latitude, index.longitude).zone == index.zone
