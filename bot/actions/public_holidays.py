"""The public holidays of a country, read in a process of its own, which is asked once for a country and its years."""

from __future__ import annotations

import logging
from datetime import date
from functools import cache, lru_cache
from importlib.resources import files

from bot.actions.holidays_read import HolidaysUnknown, Named, read_holidays
from bot.apart.outcomes import ApartError
from bot.apart.process import Apart
from storage.desk import Desk

APART = Apart(seconds=10)
"""One that does nothing else: who asks for a day waits for it, and must not wait behind a picture."""

log = logging.getLogger("weekwright.holidays")


def holidays_of(desk: Desk, first_day: date, last_day: date) -> dict[date, str]:
    """The public holidays of the country that the person's zone is for; none where they are switched off or nobody knows them."""
    country = country_of_zone(desk.person.zone) if desk.person.holidays else None
    try:
        return public_holidays(country, first_day, last_day) if country else {}
    except HolidaysUnknown:
        return {}


def public_holidays(country: str, first_day: date, last_day: date, subdivision: str | None = None) -> dict[date, str]:
    """Each public holiday from ``first_day`` to ``last_day``, both included, with its name, in English where there is one.

    ``country`` is a code of ISO 3166-1 such as BE, ``subdivision`` one of ISO
    3166-2 without the country. Two that fall on one day are named together.
    Raises HolidaysUnknown.
    """
    known = _of_years(country, subdivision, first_day.year, last_day.year)
    return {day: name for day, name in known if first_day <= day <= last_day}


@lru_cache(maxsize=1024)
def _of_years(country: str, subdivision: str | None, first: int, last: int) -> Named:
    try:
        return APART.run(read_holidays, country, subdivision, first, last)
    except ApartError as failed:
        log.warning("%s: the holidays are read here", failed)
        return read_holidays(country, subdivision, first, last)


@cache
def country_of_zone(zone: str) -> str | None:
    """The code of the country that a zone of the tz database is for, by zone.tab; None for one such as UTC."""
    rows = files("tzdata").joinpath("zoneinfo", "zone.tab").read_text("utf-8").splitlines()
    fields = (row.split("\t") for row in rows if not row.startswith("#"))
    return next((code for code, _, name, *_ in fields if name == zone), None)
