"""Days with a name of their own whose date follows a rule.

feast := name [["of"] year | ("this" | "next" | "last") "year"]

A rule is a day of a month, a weekday's place in a month, or a distance from
Easter (western). Where countries differ, the date is that of the United States
(labor day, memorial day); the names of other countries' feasts are their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TypeAlias

from dateutil.easter import easter

from bot.language.numbers import digits_at
from bot.language.standpoint import Standpoint
from bot.language.tokens import Found, Tokens, text_at


@dataclass(frozen=True, slots=True)
class Fixed:
    """The same day of a month every year."""

    month: int
    day: int

    def in_year(self, year: int) -> date:
        """Its day in a year."""
        return date(year, self.month, self.day)


@dataclass(frozen=True, slots=True)
class Placed:
    """The weekday (0 is Monday) that stands at ``place`` in the month, from 1; -1 is the last. ``later`` days are added."""

    month: int
    place: int
    weekday: int
    later: int = 0

    def in_year(self, year: int) -> date:
        """Its day in a year."""
        return nth_weekday(date(year, self.month, 1), self.place, self.weekday) + timedelta(days=self.later)


@dataclass(frozen=True, slots=True)
class FromEaster:
    """So many days after Easter Sunday, before it where negative."""

    days: int

    def in_year(self, year: int) -> date:
        """Its day in a year."""
        return easter(year) + timedelta(days=self.days)


Feast: TypeAlias = Fixed | Placed | FromEaster

_MONDAY, _TUESDAY, _THURSDAY, _SUNDAY = 0, 1, 3, 6
_LONGEST_NAME = 5
_FIRST_YEAR, _LAST_YEAR = 1900, 2199

_FEASTS: tuple[tuple[Feast, str], ...] = (
    (Fixed(1, 1), "new year, new years, new years day, new year day"),
    (Fixed(1, 6), "epiphany, three kings day"),
    (Placed(1, 3, _MONDAY), "mlk day, martin luther king day, martin luther king jr day"),
    (Fixed(2, 2), "groundhog day, candlemas"),
    (Fixed(2, 14), "valentine, valentines, valentines day, valentine day"),
    (Placed(2, 3, _MONDAY), "presidents day, washingtons birthday"),
    (Fixed(3, 8), "womens day, international womens day"),
    (Fixed(3, 17), "st patricks day, saint patricks day, st paddys day"),
    (Fixed(4, 1), "april fools, april fools day, april fool day"),
    (Fixed(4, 22), "earth day"),
    (Fixed(5, 1), "may day, workers day"),
    (Fixed(5, 5), "cinco de mayo"),
    (Placed(5, 2, _SUNDAY), "mothers day, mother day"),
    (Placed(5, -1, _MONDAY), "memorial day"),
    (Placed(6, 3, _SUNDAY), "fathers day, father day"),
    (Fixed(6, 14), "flag day"),
    (Fixed(6, 19), "juneteenth"),
    (Fixed(7, 1), "canada day"),
    (Fixed(7, 4), "independence day"),
    (Fixed(7, 14), "bastille day"),
    (Placed(9, 1, _MONDAY), "labor day, labour day"),
    (Placed(10, 2, _MONDAY), "columbus day"),
    (Fixed(10, 31), "halloween, halloween day, all hallows eve"),
    (Fixed(11, 1), "all saints day, all saints"),
    (Fixed(11, 2), "all souls day"),
    (Fixed(11, 5), "guy fawkes, guy fawkes day, guy fawkes night, bonfire night"),
    (Fixed(11, 11), "veterans day, armistice day, remembrance day"),
    (Placed(11, 4, _THURSDAY), "thanksgiving, thanksgiving day"),
    (Placed(11, 4, _THURSDAY, 1), "black friday"),
    (Placed(11, 4, _THURSDAY, 4), "cyber monday"),
    (Fixed(12, 6), "st nicholas day, saint nicholas day"),
    (Fixed(12, 24), "christmas eve, xmas eve"),
    (Fixed(12, 25), "christmas, christmas day, xmas, xmas day, x mas, x-mas"),
    (Fixed(12, 26), "boxing day, st stephens day, saint stephens day"),
    (Fixed(12, 31), "new years eve, new year eve, nye, silvester"),
    (FromEaster(-47), "mardi gras, shrove tuesday, pancake day"),
    (FromEaster(-46), "ash wednesday"),
    (FromEaster(-7), "palm sunday"),
    (FromEaster(-3), "maundy thursday"),
    (FromEaster(-2), "good friday"),
    (FromEaster(-1), "holy saturday, easter saturday"),
    (FromEaster(0), "easter, easter sunday, easter day"),
    (FromEaster(1), "easter monday"),
    (FromEaster(39), "ascension, ascension day, ascension thursday"),
    (FromEaster(49), "pentecost, whitsunday, whit sunday, pentecost sunday"),
    (FromEaster(50), "whit monday, pentecost monday"),
    (FromEaster(56), "trinity sunday"),
    (FromEaster(60), "corpus christi"),
)
_BY_NAME = {tuple(name.split()): feast for feast, names in _FEASTS for name in names.split(", ")}
_YEAR_SHIFTS = {"this": 0, "next": 1, "last": -1}
_POSSESSIVES = ("valentine's", "mother's", "father's", "women's", "washington's", "hallowe'en")
FEAST_WORDS = frozenset(name[0] for name in _BY_NAME) | frozenset(_POSSESSIVES)


def nth_weekday(first: date, place: int, weekday: int) -> date:
    """The weekday at ``place`` in the month that begins on ``first``, counted from 1, or from -1 at its end."""
    if place > 0:
        return first + timedelta(days=(weekday - first.weekday()) % 7 + 7 * (place - 1))
    following = (first + timedelta(days=31)).replace(day=1)
    last = following - timedelta(days=1)
    return last - timedelta(days=(last.weekday() - weekday) % 7 + 7 * (-place - 1))


def read_feast(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """A feast by its name, the nearest in the looking direction or that of the year said."""
    feast = _read_name(tokens, at)
    if feast is None:
        return None
    year = _read_year(tokens, feast.end, stand.today)
    if year is not None:
        return Found(feast.value.in_year(year.value), year.end)
    return Found(_nearest(feast.value, stand), feast.end)


def _read_name(tokens: Tokens, at: int) -> Found[Feast] | None:
    """A name with or without its apostrophes: new year's day, all saints' day."""
    near = [place for place in range(at, min(at + _LONGEST_NAME, len(tokens))) if not _ends_plural(tokens, place)]
    words = tuple(tokens[place].text.replace("'", "") for place in near)
    for length in range(len(words), 0, -1):
        feast = _BY_NAME.get(words[:length])
        if feast is not None:
            return Found(feast, near[length - 1] + 1)
    return None


def _ends_plural(tokens: Tokens, at: int) -> bool:
    """Whether the apostrophe of "saints'" stands there."""
    return text_at(tokens, at) == "'" and at > 0 and tokens[at - 1].text.endswith("s") and tokens[at].glued


def _read_year(tokens: Tokens, at: int, today: date) -> Found[int] | None:
    at = at + 1 if text_at(tokens, at) in ("of", ",", "in") else at
    shift = _YEAR_SHIFTS.get(text_at(tokens, at))
    if shift is not None and text_at(tokens, at + 1) == "year":
        return Found(today.year + shift, at + 2)
    year = digits_at(tokens, at)
    return Found(year, at + 1) if year is not None and _FIRST_YEAR <= year <= _LAST_YEAR else None


def _nearest(feast: Feast, stand: Standpoint) -> date:
    this_year = feast.in_year(stand.today.year)
    return this_year if stand.sees(this_year) else feast.in_year(stand.today.year + stand.step)
