"""The settings: one frozen value, parsed once from a TOML file and the environment, both given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import time
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bot.rules.colour_names import COLOUR_NAMES
from bot.settings_backups import BackupSettings, backup_settings
from bot.settings_files import configuration_folder, data_folder, find_settings_file, read_settings_file
from bot.settings_jobs import JobSettings, read_job
from bot.settings_run import RunSettings, run_settings
from bot.settings_table import ENVIRONMENT, SettingsError, Table, over
from storage.records import ClockStyle, DateOrder, DecimalMark, Look, Weekday

__all__ = ["JobSettings", "Settings", "SettingsError", "configuration_folder", "find_settings_file", "load_settings", "sample_settings"]

IN_MEMORY: Final = "sqlite://"
LARGEST_ID: Final = 2**63 - 1


@dataclass(frozen=True, slots=True)
class PersonSettings:
    """How a new person starts; latitude and longitude in degrees (WGS 84), ``free_share`` in percent."""

    zone: str
    place: str | None
    latitude: float | None
    longitude: float | None
    waking_start: time
    waking_end: time
    week_starts: Weekday
    dates: DateOrder
    clock: ClockStyle
    decimals: DecimalMark
    free_share: int
    look: Look
    pictures: bool


@dataclass(frozen=True, slots=True)
class MessageSettings:
    """Local times of the three messages that come unasked."""

    morning: time
    evening: time
    recap: time


@dataclass(frozen=True, slots=True)
class CategorySettings:
    """A category that a new person starts with."""

    name: str
    section: str
    aliases: tuple[str, ...]
    colour: str


@dataclass(frozen=True, slots=True)
class TelegramSettings:
    """How Telegram is reached and who may talk there. The token is a secret and is never shown."""

    token: str | None = field(repr=False)
    allowed: tuple[int, ...]
    url: str


@dataclass(frozen=True, slots=True)
class OutsideSettings:
    """Where the forecast and the geocoding service answer."""

    forecast_url: str
    geocoding_url: str


@dataclass(frozen=True, slots=True)
class Settings:
    """All that can be set. ``database_url`` is an SQLAlchemy URL and may hold a password."""

    person: PersonSettings
    messages: MessageSettings
    sections: tuple[str, ...]
    categories: tuple[CategorySettings, ...]
    jobs: tuple[JobSettings, ...]
    telegram: TelegramSettings
    outside: OutsideSettings
    backups: BackupSettings
    run: RunSettings
    database_url: str = field(repr=False)


def load_settings(path: Path | None, environment: Mapping[str, str]) -> Settings:
    """The settings in the file at ``path``, the sample settings for what it leaves out, and ``environment`` over both.

    An empty variable counts as one that is not set. Without a path all come
    from the sample settings. Raises SettingsError.
    """
    root = read_settings_file(path)
    root.only(["sections", "person", "messages", "categories", "jobs", "telegram", "outside", "backups", "run", "database"])
    sections = _distinct(root.texts("sections"), root, "sections")
    categories = _categories(root, sections)
    return Settings(
        person=_person(root.table("person")),
        messages=_messages(root.table("messages")),
        sections=sections,
        categories=categories,
        jobs=_jobs(root, [category.name for category in categories]),
        telegram=_telegram(root.table("telegram"), environment),
        outside=_outside(root.table("outside"), environment),
        backups=backup_settings(root.table("backups"), environment),
        run=run_settings(root.table("run"), environment),
        database_url=_database_url(root.table("database"), environment),
    )


def sample_settings() -> Settings:
    """The sample settings alone. With no environment there is no home folder, so their database is in memory."""
    return load_settings(None, {"WEEKWRIGHT_DATABASE": IN_MEMORY})


def _person(table: Table) -> PersonSettings:
    table.only(
        ["zone", "place", "latitude", "longitude", "waking", "week_starts", "dates", "clock", "decimals", "free_share", "look", "pictures"]
    )
    if table.has("latitude") != table.has("longitude"):
        missing = "longitude" if table.has("latitude") else "latitude"
        raise table.fault(missing, "degrees, because latitude and longitude go together")
    waking_start, waking_end = table.two_times("waking")
    return PersonSettings(
        zone=_zone(table),
        place=table.text("place") if table.has("place") else None,
        latitude=table.degrees("latitude", 90) if table.has("latitude") else None,
        longitude=table.degrees("longitude", 180) if table.has("longitude") else None,
        waking_start=waking_start,
        waking_end=waking_end,
        week_starts=Weekday[table.one_of("week_starts", [each.name.lower() for each in Weekday]).upper()],
        dates=table.choice("dates", DateOrder),
        clock=table.choice("clock", ClockStyle),
        decimals=table.choice("decimals", DecimalMark),
        free_share=table.integer("free_share", 0, 100),
        look=table.choice("look", Look),
        pictures=table.one_of("pictures", ["on", "off"]) == "on",
    )


def _zone(table: Table) -> str:
    zone = table.text("zone")
    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise table.fault("zone", "a time zone of the IANA such as Europe/Brussels", zone) from error
    return zone


def _messages(table: Table) -> MessageSettings:
    table.only(["morning", "evening", "recap"])
    return MessageSettings(table.time_of_day("morning"), table.time_of_day("evening"), table.time_of_day("recap"))


def _categories(root: Table, sections: tuple[str, ...]) -> tuple[CategorySettings, ...]:
    taken: set[str] = set()
    found: list[CategorySettings] = []
    for table in root.tables("categories"):
        table.only(["name", "aliases", "section", "colour"])
        category = CategorySettings(
            name=table.text("name"),
            section=table.one_of("section", sections),
            aliases=table.texts("aliases"),
            colour=_colour(table),
        )
        _distinct((category.name, *category.aliases), table, "name", taken)
        found.append(category)
    return tuple(found)


def _colour(table: Table) -> str:
    colour = table.text("colour").lower() if table.has("colour") else "grey"
    if colour not in COLOUR_NAMES:
        raise table.fault("colour", "a colour name of CSS such as teal", colour)
    return colour


def _jobs(root: Table, names: list[str]) -> tuple[JobSettings, ...]:
    found: list[JobSettings] = []
    for table in root.tables("jobs"):
        found.append(read_job(table, names))
        _distinct(tuple(job.category for job in found), table, "category")
    return tuple(found)


def _telegram(table: Table, environment: Mapping[str, str]) -> TelegramSettings:
    table.only(["token", "allowed", "url"])
    token, token_key = over(table, "token", environment, "WEEKWRIGHT_TOKEN")
    url, url_key = over(table, "url", environment, "WEEKWRIGHT_TELEGRAM_URL")
    return TelegramSettings(
        token=token.secret(token_key) if token.has(token_key) else None,
        allowed=_allowed(table, environment),
        url=url.web_address(url_key),
    )


def _allowed(table: Table, environment: Mapping[str, str]) -> tuple[int, ...]:
    variable = "WEEKWRIGHT_ALLOWED"
    if environment.get(variable, "").strip():
        said = [part.strip() for part in environment[variable].split(",") if part.strip()]
        given = Table(ENVIRONMENT, "", {variable: [int(part) if part.isdecimal() else part for part in said]})
        return given.integers(variable, 1, LARGEST_ID)
    return table.integers("allowed", 1, LARGEST_ID)


def _outside(table: Table, environment: Mapping[str, str]) -> OutsideSettings:
    table.only(["forecast_url", "geocoding_url"])
    forecast, forecast_key = over(table, "forecast_url", environment, "WEEKWRIGHT_FORECAST_URL")
    geocoding, geocoding_key = over(table, "geocoding_url", environment, "WEEKWRIGHT_GEOCODING_URL")
    return OutsideSettings(forecast.web_address(forecast_key), geocoding.web_address(geocoding_key))


def _database_url(table: Table, environment: Mapping[str, str]) -> str:
    table.only(["url"])
    source, key = over(table, "url", environment, "WEEKWRIGHT_DATABASE")
    if not source.has(key):
        return f"sqlite:///{data_folder(environment) / 'weekwright.sqlite'}"
    return source.secret_url(key)


def _distinct(names: tuple[str, ...], table: Table, key: str, taken: set[str] | None = None) -> tuple[str, ...]:
    """``names``, once it is sure that none is there twice or ``taken``, whatever their case; they are taken then."""
    seen = set() if taken is None else taken
    for name in names:
        if name.casefold() in seen:
            raise table.fault(key, "a name that nothing else has", name)
        seen.add(name.casefold())
    return names
