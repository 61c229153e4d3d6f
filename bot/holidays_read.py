"""Public holidays as the holidays package knows them.

The package loads every country to tell of one, 17 MB that would stay. Nothing
else is imported here, so that a process of its own is quick to start.
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import TypeAlias

ENGLISH = ("en_US", "en_GB")

Named: TypeAlias = tuple[tuple[date, str], ...]


class HolidaysUnknown(LookupError):
    """Nobody here knows the holidays of ``country`` (ISO 3166-1), or of its ``subdivision`` (ISO 3166-2)."""

    def __init__(self, country: str, subdivision: str | None = None) -> None:
        super().__init__("-".join(filter(None, (country, subdivision))))
        self.country = country
        self.subdivision = subdivision


@lru_cache(maxsize=1024)
def read_holidays(country: str, year: int, subdivision: str | None = None) -> Named:
    """The days and names of the year, in order, in English where there is one; two that fall on one day are named together.

    Raises HolidaysUnknown.
    """
    import holidays

    try:
        known = holidays.country_holidays(country.upper(), subdiv=subdivision, years=year)
    except NotImplementedError as error:
        raise HolidaysUnknown(country, subdivision) from error
    english = next((language for language in ENGLISH if language in known.supported_languages), None)
    if english is not None:
        known = holidays.country_holidays(country.upper(), subdiv=subdivision, years=year, language=english)
    return tuple((day, known[day]) for day in sorted(known))
