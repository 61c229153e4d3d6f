from __future__ import annotations

from datetime import date, time
from zoneinfo import ZoneInfo

import pytest

from bot.rules.clock_went import clock_went, which_pass
from bot.rules.local_time import ONE_DAY, instant_of, instant_shown


@pytest.mark.parametrize(
    ("zone", "saturday", "went"),
    [
        # Sources: the tz database 2026f; Directive 2000/84/EC sets the last Sundays of March and October.
        ("Europe/Brussels", date(2026, 3, 28), "forward"),
        ("Europe/Brussels", date(2026, 10, 24), "back"),
        ("Atlantic/Azores", date(2026, 10, 24), "back"),
        ("Europe/Brussels", date(2026, 10, 17), None),
        ("America/Sao_Paulo", date(2026, 10, 24), None),
    ],
)
def test_the_clock_goes_back_or_forward_in_the_night_of_its_change(zone: str, saturday: date, went: str | None) -> None:
    starts, ends = instant_of(saturday, time(22), zone), instant_of(saturday + ONE_DAY, time(7), zone)
    assert clock_went(starts, ends, ZoneInfo(zone)) == went
    assert clock_went(starts, starts, ZoneInfo(zone)) is None


def test_an_end_that_shows_less_than_the_start_is_of_a_clock_that_went_back() -> None:
    sunday, zone = date(2026, 10, 25), "Europe/Brussels"
    starts, ends = instant_of(sunday, time(2, 40), zone), instant_shown(sunday, time(2, 10, fold=1), zone)
    assert clock_went(starts, ends, ZoneInfo(zone)) == "back"


def test_of_an_hour_that_comes_twice_it_is_known_which_one_an_instant_is_in() -> None:
    # Source: Directive 2000/84/EC: in Lisbon the clock goes from 02:00 back to 01:00 on 25 October 2026.
    zone, night = "Europe/Lisbon", date(2026, 10, 25)
    for at, taken in ((time(0, 59), None), (time(1), "first"), (time(1, 30), "first"), (time(1, 30, fold=1), "second"), (time(2), None)):
        assert which_pass(instant_shown(night, at, zone), ZoneInfo(zone)) == taken
    assert which_pass(instant_of(date(2026, 3, 29), time(2, 30), zone), ZoneInfo(zone)) is None
