"""Public holidays beside what governments publish, and how they are come by."""

from __future__ import annotations

import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

import pytest
from dateutil.easter import easter

from bot.actions.public_holidays import country_of_zone
from bot.almanac import Almanac, read_apart
from bot.apart.process import Apart
from bot.holidays_read import HolidaysUnknown, Named, read_holidays

# Sources: United States, 5 U.S.C. 6103 as the Office of Personnel Management lists 2026; England, the bank holidays that
# gov.uk lists for 2026; Germany, Unification Treaty and the law of Berlin; Ontario, Retail Business Holidays Act and federal
# holidays; France, Code du travail, article L3133-1.
PUBLISHED = [
    ("US", None, "01-01 01-19 02-16 05-25 06-19 07-03 07-04 09-07 10-12 11-11 11-26 12-25"),
    ("GB", "ENG", "01-01 04-03 04-06 05-04 05-25 08-31 12-25 12-26 12-28"),
    ("DE", "BE", "01-01 03-08 04-03 04-06 05-01 05-14 05-25 10-03 12-25 12-26"),
    ("CA", "ON", "01-01 02-16 04-03 05-18 07-01 09-07 10-12 12-25 12-26 12-28"),
    ("FR", None, "01-01 04-06 05-01 05-08 05-14 05-25 07-14 08-15 11-01 11-11 12-25"),
]


class Counting:
    """Reads, and keeps what was read."""

    def __init__(self) -> None:
        self.asked: list[tuple[str, int]] = []

    def __call__(self, country: str, year: int) -> Named:
        self.asked.append((country, year))
        return read_holidays(country, year)


@pytest.fixture
def almanac() -> Almanac:
    return Almanac(read_holidays)


@pytest.mark.parametrize(("country", "subdivision", "days"), PUBLISHED)
def test_the_days_of_2026_are_those_that_are_published(country: str, subdivision: str | None, days: str) -> None:
    assert [f"{day:%m-%d}" for day, _ in read_holidays(country, 2026, subdivision)] == days.split()


@pytest.mark.parametrize(("country", "subdivision"), [("XX", None), ("", None), ("DE", "Atlantis")])
def test_a_country_that_nobody_knows_is_named(country: str, subdivision: str | None) -> None:
    with pytest.raises(HolidaysUnknown) as caught:
        read_holidays(country, 2026, subdivision)
    assert (caught.value.country, caught.value.subdivision) == (country, subdivision)


def test_a_holiday_has_a_name_in_english(almanac: Almanac) -> None:
    assert almanac.holidays("BE", date(2026, 7, 1), date(2026, 7, 31)) == {date(2026, 7, 21): "National Day"}


@pytest.mark.parametrize("year", range(2024, 2029))
def test_easter_monday_is_the_day_after_easter(almanac: Almanac, year: int) -> None:
    day = easter(year) + timedelta(days=1)
    assert almanac.holidays("BE", day, day) == {day: "Easter Monday"}


def test_a_stretch_may_reach_over_new_year(almanac: Almanac) -> None:
    assert list(almanac.holidays("BE", date(2025, 12, 20), date(2026, 1, 10))) == [date(2025, 12, 25), date(2026, 1, 1)]


def test_a_year_of_a_country_is_read_once_and_so_is_one_that_nobody_knows() -> None:
    read = Counting()
    almanac = Almanac(read)
    for country, day in [("BE", date(2026, 7, 21)), ("BE", date(2026, 12, 25)), ("XX", date(2026, 1, 1)), ("XX", date(2026, 1, 1))]:
        assert bool(almanac.holidays(country, day, day)) == (country == "BE")
    assert read.asked == [("BE", 2026), ("XX", 2026)]


@pytest.mark.parametrize(("zone", "country"), [("Europe/Brussels", "BE"), ("America/Toronto", "CA"), ("UTC", None), ("Nowhere", None)])
def test_a_zone_tells_its_country(zone: str, country: str | None) -> None:
    assert country_of_zone(zone) == country


def test_the_package_is_loaded_elsewhere() -> None:
    look = (
        "import sys; from datetime import date; from bot.almanac import Almanac, read_apart; from bot.apart.process import Apart; "
        "day = date(2026, 7, 21); print(Almanac(read_apart(Apart())).holidays('BE', day, day), 'holidays' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True, cwd=Path(__file__).parents[1])
    assert (said.stdout.strip(), said.stderr) == ("{datetime.date(2026, 7, 21): 'National Day'} False", "")


def test_where_that_fails_it_is_read_here(caplog: pytest.LogCaptureFixture) -> None:
    day = date(2031, 7, 21)
    assert Almanac(read_apart(Apart(seconds=0))).holidays("BE", day, day) == {day: "National Day"}
    assert caplog.messages == ["read_holidays: took more than 0 s: the holidays are read here"]
