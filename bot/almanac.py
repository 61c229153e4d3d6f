"""The public holidays of countries, each year of each read once."""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import date
from typing import TypeAlias

from bot.apart.outcomes import ApartError
from bot.apart.process import Apart
from bot.holidays_read import HolidaysUnknown, Named, read_holidays

Reading: TypeAlias = Callable[[str, int], Named]
"""A country's code (ISO 3166-1) and a year -> its public holidays in order. May block; raises HolidaysUnknown."""

log = logging.getLogger("weekwright.holidays")


class Almanac:
    """Knows what was asked before, or learned ahead of being asked. May be used from any thread."""

    def __init__(self, read: Reading) -> None:
        self._read = read
        self._known: dict[tuple[str, int], Named] = {}

    def holidays(self, country: str, first_day: date, last_day: date) -> dict[date, str]:
        """Each public holiday from ``first_day`` to ``last_day``, both included, with its name; none where nobody knows the country's.

        ``country`` is a code of ISO 3166-1 such as BE. Blocks while a year is read that was not learned.
        """
        years = range(first_day.year, last_day.year + 1)
        return {day: name for year in years for day, name in self.learn(country, year) if first_day <= day <= last_day}

    def learn(self, country: str, year: int) -> Named:
        """The holidays of the year, from now on without delay. Blocks while they are read."""
        if (country, year) not in self._known:
            self._known[country, year] = self._found(country, year)
        return self._known[country, year]

    def _found(self, country: str, year: int) -> Named:
        try:
            return self._read(country, year)
        except HolidaysUnknown:
            return ()


def read_apart(process: Apart) -> Reading:
    """Holidays are read in the process; where that fails, here."""

    def read(country: str, year: int) -> Named:
        try:
            return process.run(read_holidays, country, year)
        except ApartError as failed:
            log.warning("%s: the holidays are read here", failed)
            return read_holidays(country, year)

    return read
