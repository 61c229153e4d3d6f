"""Days said twice over: by a name and by a date or a distance.

dated    := (weekday | relative) ["," | "-" | "("] calendar [")"] | calendar "(" weekday ")"
measured := weekday [","] offset | offset "on" weekday

The name and the date settle each other: of the days the date may be, the one
with the name is meant. A figure that may as well be an hour (friday 7.6,
monday 21) is a date only where the name agrees. A distance says which week.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.language.calendar_days import read_calendar
from bot.language.offsets import moved, read_offset
from bot.language.partial_days import Partials, resolved, resolved_named
from bot.language.standpoint import Standpoint
from bot.language.tokens import Found, Tokens, is_number, text_at
from bot.language.weekdays import in_week, read_which, week_of, weekday_at
from storage.records import Weekday

_BETWEEN = frozenset({",", "-", "("})
_LAST_HOUR = 12
_SOON = 14


def read_dated_weekday(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """friday, march 15; this friday (jun-15); monday 21."""
    name = weekday_at(tokens, read_which(tokens, at)[1])
    if name is None:
        return None
    after = name.end + 1 if text_at(tokens, name.end) in _BETWEEN else name.end
    after = after + 1 if text_at(tokens, after) == "on" else after
    dated = read_calendar(tokens, after, stand.among_others())
    if dated is not None:
        return _closed(tokens, name.end, dated.end, resolved_named(dated.value, stand, name.value, must_agree=False))
    return _read_agreeing(tokens, after, name, stand) if after == name.end else None


def read_date_behind(tokens: Tokens, named: Found[date], stand: Standpoint) -> Found[date] | None:
    """tomorrow, 13 april; today (the 3rd): behind the name of a day a date, which holds."""
    if text_at(tokens, named.end) not in _BETWEEN:
        return None
    dated = read_calendar(tokens, named.end + 1, stand.among_others())
    return None if dated is None else _closed(tokens, named.end, dated.end, resolved(dated.value, stand))


def read_name_behind(tokens: Tokens, dated: Found[Partials], stand: Standpoint) -> Found[date] | None:
    """may/22 (tue); 8.5. tuesday: behind a date the name of its day, in brackets, or after a day and month with which it agrees."""
    opened = text_at(tokens, dated.end) == "("
    if not opened and dated.value[0].month is None:
        return None
    name = weekday_at(tokens, dated.end + 1 if text_at(tokens, dated.end) in _BETWEEN else dated.end)
    day = resolved_named(dated.value, stand, name.value, must_agree=not opened) if name else None
    return _closed(tokens, dated.end, name.end, day) if name else None


def read_measured_weekday(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """monday two weeks from now; friday in 2 weeks."""
    name = weekday_at(tokens, at)
    if name is None:
        return None
    offset = read_offset(tokens, name.end + 1 if text_at(tokens, name.end) == "," else name.end)
    there = moved(stand.today, offset.value) if offset and offset.value.by_day else None
    return Found(_in_week_of(there, name.value, stand), offset.end) if offset and there else None


def read_name_on(tokens: Tokens, there: Found[date], stand: Standpoint) -> Found[date] | None:
    """in 2 weeks on friday: behind a distance the name of a day in the calendar week where it leads to."""
    name = weekday_at(tokens, there.end + 1) if text_at(tokens, there.end) == "on" else None
    return Found(_in_week_of(there.value, name.value, stand), name.end) if name else None


def _in_week_of(day: date, name: Weekday, stand: Standpoint) -> date:
    return in_week(week_of(day, stand.week_starts), name, stand.week_starts)


def _closed(tokens: Tokens, opened: int, end: int, day: date | None) -> Found[date] | None:
    """The day, with the bracket closed that was opened."""
    if day is None:
        return None
    return Found(day, end + 1 if text_at(tokens, opened) == "(" and text_at(tokens, end) == ")" else end)


def _read_agreeing(tokens: Tokens, at: int, name: Found[Weekday], stand: Standpoint) -> Found[date] | None:
    """A figure that may as well be a time: the name must agree, and a low number must be near."""
    dated = read_calendar(tokens, at, replace(stand, alone=True)) if is_number(tokens, at) and text_at(tokens, at + 1) != "-" else None
    day = resolved_named(dated.value, stand, name.value, must_agree=True) if dated else None
    if dated is None or day is None or (_is_low(dated.value) and abs((day - stand.today).days) > _SOON):
        return None
    return Found(day, dated.end)


def _is_low(partials: Partials) -> bool:
    return all(partial.month is None and (partial.day or 0) <= _LAST_HOUR for partial in partials)
