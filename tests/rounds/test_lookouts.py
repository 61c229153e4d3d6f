"""Where a place is, asked of the network and without it."""

from __future__ import annotations

import asyncio
from typing import NoReturn

import pytest

from bot.outside.faults import Fault, PlacesUnavailable
from bot.rounds.lookouts import Lookouts
from tests.stage import Links, Skies


class OutOfReach:
    """A gazetteer that cannot be reached."""

    def find(self, name: str) -> NoReturn:
        raise PlacesUnavailable(Fault.NOT_REACHED)


def test_out_of_reach_of_the_gazetteer_the_cities_of_zones_are_known() -> None:
    found = asyncio.run(Lookouts(Skies(), OutOfReach(), Links()).find_place("Azores"))
    assert found is not None
    assert found.zone == "Atlantic/Azores"


def test_a_town_that_no_zone_is_named_after_is_for_the_gazetteer_alone() -> None:
    with pytest.raises(PlacesUnavailable):
        asyncio.run(Lookouts(Skies(), OutOfReach(), Links()).find_place("Turku"))
