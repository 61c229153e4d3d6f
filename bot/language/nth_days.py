"""Days by their place in a month, and the edges of weeks, months and years.

nth   := ["the"] place ("day" | weekday) [("of" | "in") month | which "month"] | ["the"] ordinal "week" "of" month ["on"] weekday
place := ordinal [["to" ["the"]] "last"] | "last"
edge  := ["the"] ("end" | "start" | "beginning" | "middle") "of" (month | week | year)
month := name [year] | ["the"] [which] "month"          which := "next" | "this" | "last"

A month by its name alone, or none, is the first one in the looking direction
in which the day lies in that direction too.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from bot.language.calendar_days import read_long_year, read_month_named
from bot.language.feasts import nth_weekday
from bot.language.month_names import MONTHS
from bot.language.numbers import ORDINAL_WORDS, read_ordinal
from bot.language.partial_days import day_or_none, day_shifted, last_of_month, month_shifted
from bot.language.standpoint import Standpoint
from bot.language.tokens import Found, Tokens, text_at
from bot.language.weekdays import WHICH, read_week, weekday_at

_EDGES = {"end": -1, "start": 1, "beginning": 1, "middle": 15, "mid": 15}
_SHORT_EDGES = {"eom": "month", "eow": "week", "eoy": "year"}
_YEAR_SHIFTS = {"this": 0, "next": 1, "last": -1, "the": 0, "current": 0}
_LAST = frozenset({"last", "final"})
NTH_WORDS = ORDINAL_WORDS | _LAST | {"the"}
EDGE_WORDS = frozenset(_EDGES) | frozenset(_SHORT_EDGES) | {"the"}


@dataclass(frozen=True, slots=True)
class Place:
    """Which day of a month: the ``number``-th, from 1 or from -1 at its end, of its days, or of those called ``weekday``."""

    number: int
    weekday: int | None = None

    def in_month(self, first: date) -> date | None:
        """The day in the month that begins on ``first``, or None where it has no such day."""
        if self.weekday is not None:
            day: date | None = nth_weekday(first, self.number, self.weekday)
        elif self.number > 0:
            day = day_shifted(first, self.number - 1)
        else:
            day = day_shifted(last_of_month(first), self.number + 1)
        return day if day and day.month == first.month else None


_FIRST_DAY, _LAST_DAY = Place(1), Place(-1)


def read_nth(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """The first friday of the month, the 2nd last day of May, second sunday, the 1st week of october on friday."""
    at = at + 1 if text_at(tokens, at) == "the" else at
    place = _read_place(tokens, at)
    if place is None:
        return _read_week_of_month(tokens, at, stand)
    placed = text_at(tokens, place.end) in ("of", "in")
    months = read_months(tokens, place.end + 1 if placed else place.end, stand) if placed or text_at(tokens, place.end) in WHICH else None
    if months is not None:
        return _first_in(place.value, months, stand)
    if place.value in (_FIRST_DAY, _LAST_DAY) and text_at(tokens, place.end) in ("of", "in"):
        return _read_longer_edge(tokens, place.end + 1, place.value.number, stand)
    if place.value.weekday is None or place.value.number < 1:
        return None
    return _first_in(place.value, Found(_months_around(stand), place.end), stand)


def read_edge(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """The end of the month, the beginning of next week, the end of march."""
    at = at + 1 if text_at(tokens, at) == "the" else at
    word = text_at(tokens, at)
    if word in _SHORT_EDGES:
        return Found(_edge_of(_SHORT_EDGES[word], stand), at + 1)
    number = _EDGES.get(word)
    if number is None:
        return None
    at = at + 2 if text_at(tokens, at + 1) in ("of", "in", "-") else at + 1
    months = read_months(tokens, at, stand)
    if months is not None:
        return _first_in(Place(number), months, stand)
    return _read_longer_edge(tokens, at, number, stand)


def read_months(tokens: Tokens, at: int, stand: Standpoint) -> Found[tuple[date, ...]] | None:
    """The first days of the months that may be meant, likeliest first: of next month one, of march two."""
    named = read_month_named(tokens, at, stand.today)
    if named is not None:
        return Found((named.value,), named.end)
    month = MONTHS.get(text_at(tokens, at))
    if month is None:
        return None
    end = at + 2 if text_at(tokens, at + 1) == "." else at + 1
    year = read_long_year(tokens, end + 1 if text_at(tokens, end) == "," else end)
    if year is not None:
        return Found((date(year.value, month, 1),), year.end)
    firsts = (day_or_none(stand.today.year + stand.step * away, month, 1) for away in range(2))
    return Found(tuple(first for first in firsts if first), end)


def _months_around(stand: Standpoint) -> tuple[date, ...]:
    return tuple(first for away in range(2) if (first := month_shifted(stand.today, stand.step * away)))


def _first_in(place: Place, months: Found[tuple[date, ...]], stand: Standpoint) -> Found[date] | None:
    days = [day for first in months.value if (day := place.in_month(first))]
    if not days:
        return None
    return Found(next((day for day in days if stand.sees(day)), days[0]), months.end)


def _read_place(tokens: Tokens, at: int) -> Found[Place] | None:
    if text_at(tokens, at) in _LAST:
        return _read_counted(tokens, at + 1, -1)
    ordinal = read_ordinal(tokens, at)
    if ordinal is None or not 0 < ordinal.value < 32:
        return None
    end = ordinal.end
    while text_at(tokens, end) in ("-", "to", "the") and end < ordinal.end + 4:
        end += 1
    if text_at(tokens, end) in _LAST:
        return _read_counted(tokens, end + 1, -ordinal.value)
    return _read_counted(tokens, ordinal.end, ordinal.value)


def _read_counted(tokens: Tokens, at: int, number: int) -> Found[Place] | None:
    if text_at(tokens, at) in ("day", "days"):
        return Found(Place(number), at + 1)
    name = weekday_at(tokens, at)
    return Found(Place(number, name.value), name.end) if name is not None and abs(number) <= 5 else None


def _read_week_of_month(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    ordinal = read_ordinal(tokens, at)
    if ordinal is None or text_at(tokens, ordinal.end) != "week" or text_at(tokens, ordinal.end + 1) not in ("of", "in"):
        return None
    months = read_months(tokens, ordinal.end + 2, stand)
    if months is None:
        return None
    name = weekday_at(tokens, months.end + 1 if text_at(tokens, months.end) in ("on", ",") else months.end)
    if name is None or not 0 < ordinal.value < 6:
        return None
    return _first_in(Place(ordinal.value, name.value), Found(months.value, name.end), stand)


def _read_longer_edge(tokens: Tokens, at: int, number: int, stand: Standpoint) -> Found[date] | None:
    """The first or last day of a week or a year: the end of next week, the last day of the year."""
    return _read_week_edge(tokens, at, number, stand) or _read_year_edge(tokens, at, number, stand)


def _read_week_edge(tokens: Tokens, at: int, number: int, stand: Standpoint) -> Found[date] | None:
    week = read_week(tokens, at, stand)
    if week is None:
        return None
    days = 6 if number < 0 else 3 if number > 1 else 0
    day = day_shifted(week.value, days)
    return Found(day, week.end) if day else None


def _read_year_edge(tokens: Tokens, at: int, number: int, stand: Standpoint) -> Found[date] | None:
    at, shift = (at - 1, 0) if text_at(tokens, at) == "year" else (at, _YEAR_SHIFTS.get(text_at(tokens, at)))
    if shift is None or text_at(tokens, at + 1) != "year":
        return None
    day = day_or_none(stand.today.year + shift, *((12, 31) if number < 0 else (7, 1) if number > 1 else (1, 1)))
    return Found(day, at + 2) if day else None


def _edge_of(what: str, stand: Standpoint) -> date:
    today = stand.today
    if what == "week":
        return today + timedelta(days=(stand.week_starts - 1 - today.weekday()) % 7)
    return last_of_month(today.replace(day=1)) if what == "month" else date(today.year, 12, 31)
