"""What rounds may ask beyond the bot, off the event loop: forecasts, places and calendars."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from bot.actions.skies import place_key
from bot.outside.calendars.fetching import NOTHING_KNOWN, CalendarSource, NotModified, Validators
from bot.outside.calendars.progress import Progress
from bot.outside.calendars.reading import read_calendar
from bot.outside.faults import OutsideError, PlacesUnavailable
from bot.outside.forecast import ForecastSource
from bot.outside.forecast_reading import read_forecast
from bot.outside.geocoding import FoundPlace, Gazetteer, NoGeocoding
from bot.rounds.off_loop import off_loop
from bot.rules.calendar_events import ReadCalendar
from bot.rules.kept_forecast import written
from storage.database import Database
from storage.records import Place, Visit

KEPT_FOR = timedelta(hours=3)
"""A forecast younger than this is not asked for again, whoever wants it and however often we start."""

ASKED_AGAIN_AFTER = timedelta(minutes=1)
"""A forecast that was not to be had is asked for again after so long: all who share the place share the failure."""

AT_ONCE = 8
"""Forecasts asked for at the same time."""

REACHES_LEAST = timedelta(days=365)
"""A calendar whose kept events reach less far ahead is read in full, changed or not."""

TELLS_EVERY = 2.0
"""Seconds: chats take about a message a second, and the result must not wait behind many."""

log = logging.getLogger("weekwright.lookouts")


@dataclass(frozen=True, slots=True)
class Lookouts:
    """Where forecasts, places and calendars come from.

    After ``tells_every`` seconds each a long reading tells how far it is; None for never. ``failed`` says when a place's
    forecast was not to be had.
    """

    forecasts: ForecastSource
    gazetteer: Gazetteer
    calendars: CalendarSource
    tells_every: float | None = TELLS_EVERY
    failed: dict[str, datetime] = field(default_factory=dict, compare=False)

    async def refresh_forecasts(self, database: Database, places: Iterable[Place], now: datetime) -> None:
        """Keeps fresh forecasts for all these places, asked for side by side; those that share a forecast are one."""
        free = asyncio.Semaphore(AT_ONCE)

        async def refresh(place: Place) -> None:
            async with free:
                await self.refresh_forecast(database, place, now)

        await asyncio.gather(*map(refresh, {place_key(place): place for place in places}.values()))

    async def refresh_forecast(self, database: Database, place: Place, now: datetime) -> bool:
        """Keeps a fresh forecast for the place; False when none is to be had."""
        key = place_key(place)
        kept = database.forecasts.get(key)
        if kept is not None and timedelta(0) <= now - kept[0] < KEPT_FOR:
            return True
        if (failed := self.failed.pop(key, None)) is not None and timedelta(0) <= now - failed < ASKED_AGAIN_AFTER:
            self.failed[key] = failed
            return False
        try:
            text = await off_loop(lambda: self.forecasts.fetch(*place))
        except OutsideError as error:
            log.warning("no forecast: %s", error.fault)
            self.failed[key] = now
            return False
        database.forecasts.put(key, now, written(read_forecast(text)))
        return True

    async def find_place(self, name: str) -> FoundPlace | None:
        """The likeliest place of that name, or None; out of reach only a zone's own city. Raises PlacesUnavailable."""
        try:
            found = await off_loop(lambda: self.gazetteer.find(name))
        except PlacesUnavailable:
            found = NoGeocoding().find(name)
            if not found:
                raise
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
