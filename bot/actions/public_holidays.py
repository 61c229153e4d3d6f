"""The public holidays of the country that a person lives in."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache
from importlib.resources import files

from storage.desk import Desk


def holidays_of(desk: Desk, first_day: date, last_day: date) -> Mapping[date, str]:
    """The public holidays of the country that the person's zone is for; none where they are switched off or nobody knows them."""
    country = country_of_zone(desk.person.zone) if desk.person.holidays else None
    return desk.holidays(country, first_day, last_day) if country else {}


@cache
def country_of_zone(zone: str) -> str | None:
    """The code of the country that a zone of the tz database is for, by zone.tab; None for one such as UTC."""
    rows = files("tzdata").joinpath("zoneinfo", "zone.tab").read_text("utf-8").splitlines()
    fields = (row.split("\t") for row in rows if not row.startswith("#"))
    return next((code for code, _, name, *_ in fields if name == zone), None)
