"""The dates of feasts against two other sources.

The package ``holidays`` 0.109 (MIT), its United States and German calendars;
Easter Sundays as published by the Astronomical Applications Department of the
U.S. Naval Observatory.
"""

from __future__ import annotations

from datetime import date

import holidays
import pytest

from bot.language.days import read_day
from bot.language.tokens import tokenize
from tests.language.person import at

YEARS = range(2022, 2041)
UNITED_STATES = {
    "new year's day": "New Year's Day",
    "martin luther king jr day": "Martin Luther King Jr. Day",
    "presidents day": "Washington's Birthday",
    "memorial day": "Memorial Day",
    "juneteenth": "Juneteenth National Independence Day",
    "independence day": "Independence Day",
    "labor day": "Labor Day",
    "columbus day": "Columbus Day",
    "veterans day": "Veterans Day",
    "thanksgiving": "Thanksgiving Day",
    "christmas day": "Christmas Day",
}
GERMANY = {"good friday": "Good Friday", "easter monday": "Easter Monday", "ascension day": "Ascension Day", "whit monday": "Whit Monday"}
EASTERS = ["2024-03-31", "2025-04-20", "2026-04-05", "2027-03-28", "2028-04-16", "2029-04-01", "2030-04-21"]


def read(phrase: str) -> date:
    found = read_day(tokenize(phrase), 0, at(), "forward")
    assert found is not None
    return found.value


@pytest.mark.parametrize(("ours", "theirs"), UNITED_STATES.items())
def test_feasts_of_the_united_states(ours: str, theirs: str) -> None:
    calendar = holidays.country_holidays("US", years=YEARS, observed=False)
    assert [read(f"{ours} {year}") for year in YEARS] == calendar.get_named(theirs, lookup="exact")


@pytest.mark.parametrize(("ours", "theirs"), GERMANY.items())
def test_feasts_that_move_with_easter(ours: str, theirs: str) -> None:
    calendar = holidays.country_holidays("DE", years=YEARS, language="en_US")
    assert [read(f"{ours} {year}") for year in YEARS] == calendar.get_named(theirs, lookup="exact")


@pytest.mark.parametrize("easter", EASTERS)
def test_easter_sundays(easter: str) -> None:
    assert read(f"easter {easter[:4]}") == date.fromisoformat(easter)
