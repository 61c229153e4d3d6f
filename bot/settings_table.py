"""Reading one table of a settings file, with errors that name the file, the key and what was expected."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from difflib import get_close_matches
from enum import StrEnum
from typing import TypeVar
from urllib.parse import urlsplit

Choice = TypeVar("Choice", bound=StrEnum)

LONGEST_SHOWN = 40
NUMBER_OF_TIMES = 2
ENVIRONMENT = "the environment"


class SettingsError(Exception):
    """Settings that cannot be used: where they stand, which key, and what was expected there."""

    def __init__(self, where: str, key: str | None, expected: str) -> None:
        super().__init__(": ".join(part for part in (where, key, f"expected {expected}") if part))
        self.where = where
        self.key = key
        self.expected = expected


@dataclass(frozen=True, slots=True)
class Table:
    """The values of one table. ``where`` names the file, ``name`` the table; a missing key raises SettingsError too."""

    where: str
    name: str
    values: Mapping[str, object]

    def fault(self, key: str, expected: str, shown: object = None) -> SettingsError:
        """The error for ``key``; ``shown`` is the wrong value, if it may be shown."""
        instead = "" if shown is None else f", not {_short(shown)}"
        return SettingsError(self.where, f"{self.name}.{key}" if self.name else key, expected + instead)

    def only(self, known: Iterable[str]) -> None:
        """Raises SettingsError for a key that is not ``known``, and names the nearest that is."""
        names = sorted(known)
        for key in self.values:
            if key not in names:
                nearest = get_close_matches(key, names, n=1, cutoff=0)
                raise self.fault(key, f"a known key, nearest is {nearest[0]}" if nearest else "nothing here")

    def has(self, key: str) -> bool:
        """Whether the key is there."""
        return key in self.values

    def table(self, key: str) -> Table:
        """The table under ``key``; an empty one when it is missing."""
        value = self.values.get(key, {})
        if not isinstance(value, dict):
            raise self.fault(key, "a table", value)
        return Table(self.where, f"{self.name}.{key}" if self.name else key, value)

    def tables(self, key: str) -> tuple[Table, ...]:
        """The tables of the list under ``key``, each named by its number from 1."""
        value = self.values.get(key, [])
        if not isinstance(value, list) or not all(isinstance(each, dict) for each in value):
            raise self.fault(key, f"tables, each under [[{key}]]", value)
        name = f"{self.name}.{key}" if self.name else key
        return tuple(Table(self.where, f"{name}[{number}]", each) for number, each in enumerate(value, 1))

    def text(self, key: str) -> str:
        """Text of one line that is not blank, without blanks around it."""
        value = self.values.get(key)
        if not isinstance(value, str) or not value.strip() or not value.strip().isprintable():
            raise self.fault(key, "one line of text", value)
        return value.strip()

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts; empty when the key is missing."""
        value = self.values.get(key, [])
        if not isinstance(value, list):
            raise self.fault(key, "a list of texts", value)
        return tuple(Table(self.where, self.name, {key: each}).text(key) for each in value)

    def secret(self, key: str) -> str:
        """A word of ASCII without blanks, as can stand in an address, that no error shows."""
        value = self.values.get(key)
        if not isinstance(value, str) or not re.fullmatch(r"[!-~]+", value.strip()):
            raise self.fault(key, "one word without blanks, of plain letters, digits and signs")
        return value.strip()

    def secret_url(self, key: str) -> str:
        """A database's URL, which may hold a password and so is shown by no error."""
        value = self.values.get(key)
        if not isinstance(value, str) or not re.match(r"\w[\w+]*://", value.strip()):
            raise self.fault(key, "an SQLAlchemy URL such as sqlite:////home/me/week.sqlite")
        return value.strip()

    def web_address(self, key: str) -> str:
        """An address that starts with http:// or https://, without a slash at its end."""
        value = self.text(key)
        if not re.fullmatch(r"https?://[^\s/]\S*", value) or not _has_host_and_port(value):
            raise self.fault(key, "an address such as http://127.0.0.1:8081", value)
        return value.rstrip("/")

    def integer(self, key: str, least: int, most: int) -> int:
        """A whole number from ``least`` to ``most``."""
        value = self.values.get(key)
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            raise self.fault(key, f"a whole number from {least} to {most}", value)
        return value

    def integers(self, key: str, least: int, most: int) -> tuple[int, ...]:
        """A list of whole numbers from ``least`` to ``most``; empty when the key is missing."""
        value = self.values.get(key, [])
        if not isinstance(value, list):
            raise self.fault(key, "a list of whole numbers", value)
        return tuple(Table(self.where, self.name, {key: each}).integer(key, least, most) for each in value)

    def degrees(self, key: str, most: float) -> float:
        """Degrees from minus ``most`` to ``most``."""
        value = self.values.get(key)
        if isinstance(value, bool) or not isinstance(value, int | float) or not -most <= value <= most:
            raise self.fault(key, f"degrees from {-most:g} to {most:g}", value)
        return float(value)

    def time_of_day(self, key: str) -> time:
        """A time of day, HH:MM."""
        value = self.values.get(key)
        found = _time(value) if isinstance(value, str) else None
        if found is None:
            raise self.fault(key, 'a time such as "06:00"', value)
        return found

    def flag(self, key: str) -> bool:
        """true or false."""
        value = self.values.get(key)
        if not isinstance(value, bool):
            raise self.fault(key, "true or false", value)
        return value

    def day(self, key: str) -> date:
        """A day, as TOML writes one or as text."""
        value = self.values.get(key)
        if isinstance(value, date) and not isinstance(value, datetime):
            return value
        if isinstance(value, str) and re.fullmatch(r"\d{4}-\d{2}-\d{2}", value.strip()):
            try:
                return date.fromisoformat(value.strip())
            except ValueError as error:
                raise self.fault(key, "a day such as 2026-03-02", value) from error
        raise self.fault(key, "a day such as 2026-03-02", value)

    def hours(self, key: str) -> int:
        """Hours and minutes, H:MM, in minutes."""
        value = self.values.get(key)
        match = re.fullmatch(r"(\d{1,3}):([0-5]\d)", value.strip()) if isinstance(value, str) else None
        if match is None:
            raise self.fault(key, 'hours and minutes such as "6:00"', value)
        return 60 * int(match[1]) + int(match[2])

    def amount(self, key: str) -> Decimal:
        """A decimal above nothing, as text: a bare 14.50 would come through a binary float."""
        value = self.values.get(key)
        if not isinstance(value, str) or not re.fullmatch(r"\d{1,6}(\.\d{1,4})?", value.strip()) or not Decimal(value.strip()):
            raise self.fault(key, 'an amount in quotes such as "14.50"', value)
        return Decimal(value.strip())

    def currency(self, key: str) -> str:
        """Three capital letters (ISO 4217)."""
        value = self.values.get(key)
        if not isinstance(value, str) or not re.fullmatch(r"[A-Z]{3}", value.strip()):
            raise self.fault(key, 'a currency\'s code such as "EUR"', value)
        return value.strip()

    def two_times(self, key: str) -> tuple[time, time]:
        """Two different times of day, HH:MM-HH:MM."""
        value = self.values.get(key)
        parts = [_time(part) for part in re.split("[-–]", value)] if isinstance(value, str) else []
        if len(parts) != NUMBER_OF_TIMES or parts[0] is None or parts[1] is None or parts[0] == parts[1]:
            raise self.fault(key, 'two times such as "06:00-21:00"', value)
        return parts[0], parts[1]

    def choice(self, key: str, choices: type[Choice]) -> Choice:
        """One of an enum's values."""
        return choices(self.one_of(key, [each.value for each in choices]))

    def one_of(self, key: str, choices: Sequence[str]) -> str:
        """One of ``choices``, as it is written there, whatever its case here."""
        value = self.values.get(key)
        for choice in choices:
            if isinstance(value, str) and value.strip().casefold() == choice.casefold():
                return choice
        raise self.fault(key, f"one of {', '.join(choices)}", value)


def over(table: Table, key: str, environment: Mapping[str, str], variable: str) -> tuple[Table, str]:
    """Where to read ``key`` from: the environment when it sets ``variable``, else ``table``."""
    value = environment.get(variable, "").strip()
    return (Table(ENVIRONMENT, "", {variable: value}), variable) if value else (table, key)


def _has_host_and_port(url: str) -> bool:
    """Whether the URL names a host, and a port if it names any; a wrong one would only be found out when nothing answers, for ever."""
    try:
        parts = urlsplit(url)
        return bool(parts.hostname) and parts.port != 0
    except ValueError:
        return False


def _time(text: str) -> time | None:
    match = re.fullmatch(r"([01]?[0-9]|2[0-3]):([0-5][0-9])", text.strip())
    return time(int(match[1]), int(match[2])) if match else None


def _short(value: object) -> str:
    shown = repr(value)
    return shown if len(shown) <= LONGEST_SHOWN else f"{shown[:LONGEST_SHOWN]}…"
