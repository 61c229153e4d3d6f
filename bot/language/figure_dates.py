"""Dates in figures.

date   := digits8 | joined | number number year | year number number | year [","] month number
joined := field sep field [sep field] ["."]      sep one of "-" "/" "."; a field is a number or a month's name

2/3 is a date; 2-3 and 2.3 mostly are something else, and are dates only where
nothing else can stand, with a year, or as 2.3. with its second point. Where
both orders make a date, the person's own comes first and the other after it.
"""

from __future__ import annotations

from dataclasses import dataclass

from bot.language.amounts import UNITS
from bot.language.month_names import MONTHS
from bot.language.numbers import digits_at
from bot.language.partial_days import Partial, Partials, day_or_none
from bot.language.standpoint import Standpoint
from bot.language.tokens import Found, Tokens, is_glued, is_number, text_at
from storage.records import DateOrder

_SEPARATORS = frozenset("-/.")
_FIRST_YEAR, _LAST_YEAR = 1900, 2199
_NOT_AFTER = frozenset(UNITS) | {"am", "pm", "of", ":"}


@dataclass(frozen=True, slots=True)
class _Field:
    """``width`` is how many digits were written; 0 for a month's name."""

    value: int
    width: int

    @property
    def is_year(self) -> bool:
        return self.width == 4


def read_figure_date(tokens: Tokens, at: int, stand: Standpoint) -> Found[Partials] | None:
    """20260228, 2026-02-28, 31-oct-74, 2/3, 9/2012, 10 31 1974; where only a day can stand also 2-15 and 7.6."""
    return _read_run(tokens, at) or _read_joined(tokens, at, stand) or _read_spaced(tokens, at, stand.date_order)


def is_year(value: int) -> bool:
    """Whether a number of four digits is a year that people plan or remember."""
    return _FIRST_YEAR <= value <= _LAST_YEAR


def full_year(value: int) -> int:
    """A year of two digits as 1950 to 2049."""
    return value + 2000 if value < 50 else value + 1900 if value < 100 else value


def _read_run(tokens: Tokens, at: int) -> Found[Partials] | None:
    value = digits_at(tokens, at) if len(text_at(tokens, at)) == 8 else None
    if value is None:
        return None
    year, month, day = value // 10000, value // 100 % 100, value % 100
    return Found((Partial(day, month, year),), at + 1) if is_year(year) and day_or_none(year, month, day) else None


def _read_joined(tokens: Tokens, at: int, stand: Standpoint) -> Found[Partials] | None:
    separator = text_at(tokens, at + 1)
    if separator not in _SEPARATORS or not (stand.alone or _is_tight(tokens, at)):
        return None
    fields = [field for place in (at, at + 2) if (field := _field(tokens, place))]
    if len(fields) < 2:
        return None
    third = _field(tokens, at + 4) if text_at(tokens, at + 3) == separator and (stand.alone or _is_tight(tokens, at + 2)) else None
    if third is not None:
        return _found(_three([*fields, third], stand.date_order), at + 5)
    return _read_two(tokens, at, fields, stand)


def _is_tight(tokens: Tokens, at: int) -> bool:
    return is_glued(tokens, at + 1) and is_glued(tokens, at + 2)


def _is_more(tokens: Tokens, at: int) -> bool:
    return is_number(tokens, at) and is_glued(tokens, at)


def _field(tokens: Tokens, at: int) -> _Field | None:
    month = MONTHS.get(text_at(tokens, at))
    if month is not None:
        return _Field(month, 0)
    value = digits_at(tokens, at)
    return None if value is None or len(tokens[at].text) == 3 or len(tokens[at].text) > 4 else _Field(value, len(tokens[at].text))


def _three(fields: list[_Field], order: DateOrder) -> Partials:
    """A month's name shows its place; so does a year of four digits; a year of two stands last."""
    years = [field for field in fields if field.is_year] or ([fields[-1]] if fields[-1].width == 2 else [])
    if len(years) != 1:
        return ()
    year = full_year(years[0].value)
    first, second = (field for field in fields if field is not years[0])
    if not first.width or not second.width:
        month, day = (first, second) if not first.width else (second, first)
        return _whole(year, month.value, day.value) if day.width else ()
    if fields[0].is_year:
        return _whole(year, first.value, second.value)
    return _both_ways(first.value, second.value, year, order)


def _read_two(tokens: Tokens, at: int, fields: list[_Field], stand: Standpoint) -> Found[Partials] | None:
    end, separator = at + 3, tokens[at + 1].text
    pointed = separator == "." and text_at(tokens, end) == "." and is_glued(tokens, end) and not _is_more(tokens, end + 1)
    end = end + 1 if pointed else end
    if text_at(tokens, end) in _NOT_AFTER or _is_more(tokens, end):
        return None
    first, second = fields
    if not first.width or not second.width:
        return None if separator == "." else _named_two(first, second, end)
    if second.is_year and first.width <= 2 and 0 < first.value <= 12 and is_year(second.value) and (separator == "/" or stand.alone):
        return Found((Partial(None, first.value, second.value),), end)
    if first.is_year and second.width == 2 and stand.alone and is_year(first.value) and 0 < second.value <= 12:
        return Found((Partial(None, second.value, first.value),), end)
    if first.is_year or second.is_year or not (separator == "/" or pointed or stand.alone):
        return None
    options = _both_ways(first.value, second.value, None, stand.date_order)
    if separator == "." and not pointed:
        options = _unlike_a_time(options, first, second, stand.date_order) if text_at(tokens, end) != "-" else ()
    return _found(options, end)


def _unlike_a_time(options: Partials, first: _Field, second: _Field, order: DateOrder) -> Partials:
    """8.30 looks like a time, so it is a date in the person's own order only; 7.6 is one either way."""
    month = second.value if order is DateOrder.DAY_MONTH else first.value
    return options if second.width == 1 else tuple(option for option in options if option.month == month)[:1]


def _named_two(first: _Field, second: _Field, end: int) -> Found[Partials] | None:
    """jan/3, 3-jan."""
    month, day = (first, second) if not first.width else (second, first)
    return Found((Partial(day.value, month.value),), end) if day.width in (1, 2) and 0 < day.value < 32 else None


def _read_spaced(tokens: Tokens, at: int, order: DateOrder) -> Found[Partials] | None:
    """10 31 1974, 1974 10 31, 1974 october 31: with a whole year."""
    if is_number(tokens, at) and len(tokens[at].text) == 4:
        return _read_year_first(tokens, at)
    if not is_number(tokens, at + 1):
        return None
    first, second, year = digits_at(tokens, at), digits_at(tokens, at + 1), digits_at(tokens, at + 2)
    if first is None or second is None or year is None or len(tokens[at + 2].text) != 4 or not is_year(year):
        return None
    return _found(_both_ways(first, second, year, order), at + 3)


def _read_year_first(tokens: Tokens, at: int) -> Found[Partials] | None:
    month_at = at + 2 if text_at(tokens, at + 1) == "," else at + 1
    year, month, day = (_field(tokens, place) for place in (at, month_at, month_at + 1))
    if year is None or month is None or day is None or text_at(tokens, month_at + 2) in _NOT_AFTER:
        return None
    is_date = month.width <= 2 and 0 < day.width <= 2 and day_or_none(2000, month.value, day.value)
    return _found(_whole(year.value, month.value, day.value), month_at + 2) if is_date else None


def _whole(year: int, month: int, day: int) -> Partials:
    """A full date; 2024-13-01 can only be the 13th of January."""
    if day_or_none(year, month, day) is None:
        day, month = month, day
    return (Partial(day, month, year),) if is_year(year) and day_or_none(year, month, day) else ()


def _both_ways(first: int, second: int, year: int | None, order: DateOrder) -> Partials:
    day, month = (first, second) if order is DateOrder.DAY_MONTH else (second, first)
    options = [(day, month)] if day == month else [(day, month), (month, day)]
    return tuple(Partial(d, m, year) for d, m in options if day_or_none(year or 2000, m, d))


def _found(partials: Partials, end: int) -> Found[Partials] | None:
    return Found(partials, end) if partials else None
