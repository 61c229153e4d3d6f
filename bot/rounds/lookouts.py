"""What rounds may ask beyond the bot, off the event loop: forecasts, places and calendars."""

from __future__ import annotations

import logging
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bot.actions.skies import place_key
from bot.outside.calendars.fetching import NOTHING_KNOWN, CalendarSource, NotModified, Validators
from bot.outside.calendars.progress import Progress
from bot.outside.calendars.reading import read_calendar
from bot.outside.faults import OutsideError
from bot.outside.forecast import ForecastSource
from bot.outside.forecast_reading import read_forecast
from bot.outside.geocoding import FoundPlace, Gazetteer
from bot.rounds.off_loop import off_loop
from bot.rules.calendar_events import ReadCalendar
from bot.rules.kept_forecast import written
from storage.database import Database
from storage.records import Person, Visit

KEPT_FOR = timedelta(hours=3)
"""A forecast younger than this is not asked for again, whoever wants it and however often we start."""

REACHES_LEAST = timedelta(days=365)
"""A calendar whose kept events reach less far ahead is read in full, changed or not."""

TELLS_EVERY = 2.0
"""Seconds: chats take about a message a second, and the result must not wait behind many."""

log = logging.getLogger("weekwright.lookouts")


@dataclass(frozen=True, slots=True)
class Lookouts:
    """Where forecasts, places and calendars come from.

    After ``tells_every`` seconds each a long reading tells how far it is; None for never.
    """

    forecasts: ForecastSource
    gazetteer: Gazetteer
    calendars: CalendarSource
    tells_every: float | None = TELLS_EVERY

    async def refresh_forecast(self, database: Database, person: Person, now: datetime) -> bool:
        """Keeps a fresh forecast for the person's place; False when there is no place or none is to be had."""
        key = place_key(person)
        if key is None or person.latitude is None or person.longitude is None:
            return False
        kept = database.forecasts.get(key)
        if kept is not None and timedelta(0) <= now - kept[0] < KEPT_FOR:
            return True
        latitude, longitude = person.latitude, person.longitude
        try:
            text = await off_loop(lambda: self.forecasts.fetch(latitude, longitude))
        except OutsideError as error:
            log.warning("no forecast: %s", error.fault)
            return False
        database.forecasts.put(key, now, written(read_forecast(text)))
        return True

    async def find_place(self, name: str) -> FoundPlace | None:
        """The likeliest place of that name, or None. Raises PlacesUnavailable."""
        found = await off_loop(lambda: self.gazetteer.find(name))
        return found[0] if found else None

    async def read_calendar(
        self, link: str, zone: str, days: tuple[date, date], known: Visit | None, now: datetime
    ) -> tuple[ReadCalendar | None, Visit]:
        """What the calendar says of ``days``, first and last, or None when it is as it was at the visit ``known``.

        Raises CalendarUnavailable.
        """
        far_enough = known is not None and known.reaches - now.date() >= REACHES_LEAST

        def look() -> tuple[ReadCalendar | None, Visit]:
            version = Validators(known.etag, known.last_modified) if known is not None and far_enough else NOTHING_KNOWN
            found = self.calendars.fetch(link, version)
            if isinstance(found, NotModified):
                return None, Visit(now, known.reaches if known else days[1], version.etag, version.last_modified)
            read = read_calendar(found.content, zone, *days)
            return read, Visit(now, days[1], found.validators.etag, found.validators.last_modified)

        return await off_loop(look)

    async def read_file(self, content: bytes, zone: str, days: tuple[date, date], progress: Progress) -> ReadCalendar:
        """What a calendar that was sent says of ``days``, first and last; ``progress`` counts its events meanwhile.

        Raises CalendarUnavailable.
        """
        return await off_loop(lambda: read_calendar(content, zone, *days, progress=progress))
