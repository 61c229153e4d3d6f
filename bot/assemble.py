"""The one place where real parts are chosen and joined."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from bot.almanac import Almanac, read_apart
from bot.apart.process import Apart
from bot.door import Door
from bot.engine import Engine
from bot.holidays_read import read_holidays
from bot.house import House
from bot.outside.calendars.fetching import CalendarLinks, CalendarSource
from bot.outside.calendars.reading import read_calendar
from bot.outside.forecast import ForecastSource, OpenMeteo
from bot.outside.geocoding import Gazetteer, OpenMeteoGeocoding
from bot.outside.zones_by_place import zone_at
from bot.rounds import making
from bot.rounds.alarm import Alarm, Chore
from bot.rounds.daily_backup import DailyBackup
from bot.rounds.holidays_ahead import HolidaysAhead
from bot.rounds.lookouts import TELLS_EVERY, Lookouts
from bot.rounds.studio import Studio
from bot.rounds.sweeping import Sweeping
from bot.settings import Settings
from storage.backup_folder import BackupFolder
from storage.database import Database

Now = Callable[[], datetime]

HOLIDAYS_SECONDS = 10.0
"""How long a year's public holidays may take: somebody may be waiting for them."""


def assemble(
    settings: Settings,
    database: Database,
    allowed: Callable[[str], bool],
    now: Now,
    forecasts: ForecastSource | None = None,
    gazetteer: Gazetteer | None = None,
    calendars: CalendarSource | None = None,
    tells_every: float | None = TELLS_EVERY,
    *,
    keeping_house: bool = False,
    apart: Apart | None = None,
) -> House:
    """Joins the parts on an open database. Without sources given, forecasts, places and calendars come from the network.

    Long work tells after so many seconds each how far it is; None for never.
    With ``keeping_house``, the alarm makes the daily backups, sweeps up and looks ahead for public holidays.
    With ``apart``, files are made there, from the database that the settings name, which is this one; and public
    holidays are read in another such process, so that no answer waits for them behind a picture.
    """
    almanac = Almanac(read_holidays if apart is None else read_apart(Apart(HOLIDAYS_SECONDS)))
    database.holidays = almanac.holidays
    door = Door(database, settings, allowed)
    lookouts = Lookouts(
        forecasts or OpenMeteo(settings.outside.forecast_url),
        gazetteer or OpenMeteoGeocoding(settings.outside.geocoding_url),
        calendars or CalendarLinks(),
        tells_every,
    )
    engine = Engine(database, door, zone_at, read_calendar, now)
    alarm = Alarm(database, lookouts, now, _chores(settings, database, almanac) if keeping_house else ())
    make = making.here(database) if apart is None else making.apart(settings.database_url, apart)
    return House(database, engine, door, alarm, Studio(make))


def _chores(settings: Settings, database: Database, almanac: Almanac) -> tuple[Chore, ...]:
    chores = Sweeping(database).tick, HolidaysAhead(database, almanac).tick
    if database.is_shared:
        # A server has its own backups, which are made once and not by each worker.
        return chores
    own = settings.backups
    backup = DailyBackup(BackupFolder(database.path, own.folder, own.key), own.rotation, database.everything)
    return backup.tick, *chores
