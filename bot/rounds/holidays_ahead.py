"""Public holidays are read before anybody asks for them, beside the loop, because the first reading takes a third of a second."""

from __future__ import annotations

from datetime import datetime, timedelta

from bot.actions.public_holidays import country_of_zone
from bot.almanac import Almanac
from bot.rounds.off_loop import off_loop
from storage.database import Database

LOOKS_EVERY = timedelta(minutes=1)
"""How often somebody may have come from, or gone to, a country that nobody lived in before."""


class HolidaysAhead:
    """A round of the house, not of a person."""

    def __init__(self, database: Database, almanac: Almanac) -> None:
        self._database = database
        self._almanac = almanac
        self._looked: datetime | None = None

    async def tick(self, now: datetime) -> None:
        """Learns this year and the next of every country that somebody lives in, unless it has just been done. Raises StorageError."""
        if self._looked is None or not timedelta(0) <= now - self._looked < LOOKS_EVERY:
            self._looked = now
            await off_loop(lambda: self._learn(now.year))

    def _learn(self, year: int) -> None:
        countries = {country_of_zone(zone) for zone in self._database.people.zones_with_holidays()}
        for country in filter(None, countries):
            for each in (year, year + 1):
                self._almanac.learn(country, each)
