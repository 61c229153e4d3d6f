"""Times of day in figures, or in words that stand for figures.

figures := hour [(":" | "." | "h") minute [":" second]] ["h" | "hours"] | hhmm ["h" | "hours"] | hour "o'clock" | hour minute half
         | hour-word [minute-word | "oh" minute-word]
behind  := [half] ["ish" | "sharp"] [part of day]
half    := "am" | "pm" | "a.m." | "p m" | "a" | "p" | "noon" | "midnight"

A lone hour, a lone hhmm, 9.30 and 4a are ``bare``: what they are depends on
what stands beside them.
"""

from __future__ import annotations

from dataclasses import replace

from bot.language.amounts import UNITS
from bot.language.dayparts import read_part_after
from bot.language.numbers import ONES, TENS, digits_at, read_quantity, read_whole
from bot.language.times_of_day import DAY_MINUTES, HALF_DAY, Clock, with_part
from bot.language.tokens import Found, Tokens, is_glued, is_number, text_at

_HALVES = {"am": 0, "pm": 1, "a": 0, "p": 1}
_TWELVES = {"noon": 1, "midday": 1, "midnight": 0}
_OH = frozenset({"oh", "o", "zero"})
_O_CLOCK = frozenset({"o'clock", "oclock"})
_HOUR_MARKS = frozenset({"h", "hrs", "hours"})
_EXACTNESS = frozenset({"ish", "sharp"})
_TWENTY_FOUR_HOUR_FORM = 3
_TWELVE_FIFTY_NINE = 12 * 60 + 59


def read_figures(tokens: Tokens, at: int) -> Found[Clock] | None:
    """9, 9:30, 9.30, 9h30, 0930, 9pm, nine thirty, with what may stand behind it."""
    if is_number(tokens, at):
        return _read_digits(tokens, at)
    hour = ONES.get(text_at(tokens, at), 0)
    minute = _read_minute_words(tokens, at + 2 if text_at(tokens, at + 1) == "-" and is_glued(tokens, at + 2) else at + 1)
    if not 0 < hour <= (19 if minute else 12):
        return None
    return _complete(tokens, minute.end, 60 * hour + minute.value) if minute else _complete(tokens, at + 1, 60 * hour)


def read_hour(tokens: Tokens, at: int) -> Found[Clock] | None:
    """A whole hour that is sure to be one: the three of "half past three"."""
    hour = read_whole(tokens, at)
    return _complete(tokens, hour.end, hour.value * 60, sure=True) if hour and hour.value <= 24 else None


def _read_minute_words(tokens: Tokens, at: int) -> Found[int] | None:
    if text_at(tokens, at) in _OH:
        one = ONES.get(text_at(tokens, at + 1), 0)
        return Found(one, at + 2) if 0 < one < 10 else None
    if text_at(tokens, at) not in TENS and ONES.get(text_at(tokens, at), 0) < 10:
        return None
    minute = read_whole(tokens, at)
    if minute is None or minute.value >= 60:
        return None
    # Between seven thirty and nine says no 39.
    return minute if text_at(tokens, at + 1) != "and" else Found(TENS[tokens[at].text], at + 1)


def _read_digits(tokens: Tokens, at: int) -> Found[Clock] | None:
    value, length = digits_at(tokens, at), len(tokens[at].text)
    if value is None or length > 4:
        return None
    if length > 2:
        return _read_run(tokens, at, value)
    if value > 24 or _is_measured(tokens, at):
        return None
    joint, glued = text_at(tokens, at + 1), is_glued(tokens, at + 1)
    if joint in (":", ".", "h") and glued and is_number(tokens, at + 2) and is_glued(tokens, at + 2):
        return _read_with_minutes(tokens, at, value)
    if joint == "h":
        return _complete(tokens, at + 2, value * 60, sure=True, price=_TWENTY_FOUR_HOUR_FORM)
    hour = _read_spaced(tokens, at, value) or _complete(tokens, at + 1, value * 60, price=_price_of_zero(tokens, at))
    return None if hour is None or _runs_into_a_word(tokens, hour.end) else hour


def _is_measured(tokens: Tokens, at: int) -> bool:
    """Whether a unit stands behind it that no time has, so that it is a length: 10m, 2 hours. A letter apart may be a word: 17 w lunch."""
    following = text_at(tokens, at + 1)
    sure = len(following) > 1 or following == "m" or is_glued(tokens, at + 1)
    return sure and following.isalpha() and following in UNITS and following != "h"


def _runs_into_a_word(tokens: Tokens, end: int) -> bool:
    """Whether a word is glued to the figures, which are no hour then: 5k."""
    return is_glued(tokens, end) and tokens[end].kind == "word" and is_number(tokens, end - 1)


def _read_run(tokens: Tokens, at: int, value: int) -> Found[Clock] | None:
    """930, 0930, 1630 hours."""
    hour, minute = divmod(value, 100)
    if minute > 59 or value > 2400:
        return None
    marked = text_at(tokens, at + 1) in _HOUR_MARKS
    return _complete(tokens, at + 2 if marked else at + 1, hour * 60 + minute, sure=marked, price=_price_of_zero(tokens, at))


def _read_with_minutes(tokens: Tokens, at: int, hour: int) -> Found[Clock] | None:
    minute, joint = digits_at(tokens, at + 2), tokens[at + 1].text
    if minute is None or minute > 59 or len(tokens[at + 2].text) != 2 or hour * 60 + minute > DAY_MINUTES:
        return None
    seconds = _after_seconds(tokens, at + 3)
    end = _after_offset(tokens, seconds, at) if seconds else at + 3
    end = end + 1 if text_at(tokens, end) in _HOUR_MARKS else end
    price = _TWENTY_FOUR_HOUR_FORM if joint == "h" else _price_of_zero(tokens, at)
    return _complete(tokens, end, hour * 60 + minute, sure=joint != ".", price=price)


def _read_spaced(tokens: Tokens, at: int, hour: int) -> Found[Clock] | None:
    """3 30 pm: two numbers are a time only where the half follows."""
    minute = digits_at(tokens, at + 1)
    if minute is None or minute > 59 or len(tokens[at + 1].text) != 2 or _read_half(tokens, at + 2) is None:
        return None
    return _complete(tokens, at + 2, hour * 60 + minute, sure=True)


def _after_seconds(tokens: Tokens, at: int) -> int | None:
    """The index after ":24" or ":24.487"; the seconds themselves do not matter."""
    if text_at(tokens, at) not in (":", ".") or not is_glued(tokens, at + 1):
        return None
    seconds = read_quantity(tokens, at + 1)
    return seconds.end if seconds and is_number(tokens, at + 1) and seconds.value < 60 else None


def _after_offset(tokens: Tokens, at: int, start: int) -> int:
    """The index after a distance from UTC: +01:00, -0500; -05:30 only in the form 2026-11-30T08:15:30-05:30."""
    sign = text_at(tokens, at)
    if sign not in ("+", "-") or not is_glued(tokens, at + 1) or not is_number(tokens, at + 1):
        return at
    if len(tokens[at + 1].text) == 4:
        return at + 2
    with_colon = text_at(tokens, at + 2) == ":" and is_number(tokens, at + 3)
    return at + 4 if with_colon and (sign == "+" or text_at(tokens, start - 1) == "t") else at


def _price_of_zero(tokens: Tokens, at: int) -> int:
    """09:30 is of the 24-hour clock."""
    return _TWENTY_FOUR_HOUR_FORM if tokens[at].text[0] == "0" else 0


def _complete(tokens: Tokens, at: int, minute: int, *, sure: bool = False, price: int = 0) -> Found[Clock] | None:
    """The clock with what stands behind its figures. None for 0 pm."""
    if text_at(tokens, at) in _O_CLOCK:
        at, sure = at + 1, True
    half = _read_half(tokens, at) or _read_twelve(tokens, at, minute)
    if half is None:
        return _with_part_after(tokens, at, _open(minute, sure=sure, price=price))
    if minute < 60:
        return None
    lone = len(tokens[at].text) == 1 and half.end == at + 1
    fixed = minute if minute > _TWELVE_FIFTY_NINE else minute % HALF_DAY + HALF_DAY * half.value
    return _with_part_after(tokens, half.end, Clock(fixed, bare=lone and not sure))


def _open(minute: int, *, sure: bool, price: int) -> Clock:
    if not 60 <= minute <= _TWELVE_FIFTY_NINE:
        return Clock(minute, bare=not sure, full=True)
    return Clock(minute, (minute + HALF_DAY) % DAY_MINUTES, price, bare=not sure)


def _with_part_after(tokens: Tokens, at: int, clock: Clock) -> Found[Clock]:
    if text_at(tokens, at) == "-" and text_at(tokens, at + 1) == "ish":
        at += 1
    if text_at(tokens, at) in _EXACTNESS:
        at, clock = at + 1, replace(clock, bare=False)
    part = read_part_after(tokens, at)
    return Found(with_part(clock, part.value), part.end) if part else Found(clock, at)


def _read_half(tokens: Tokens, at: int) -> Found[int] | None:
    """am, pm, a.m., p m; a lone a or p only where it is glued to the figures."""
    text = text_at(tokens, at)
    half = _HALVES.get(text)
    if half is None:
        return None
    if len(text) == 2:
        return Found(half, at + 1)
    dot = at + 1 if text_at(tokens, at + 1) == "." else at
    if text_at(tokens, dot + 1) == "m":
        end = dot + 2
        return Found(half, end + 1 if dot > at and text_at(tokens, end) == "." and is_glued(tokens, end) else end)
    alone = not is_glued(tokens, at + 1) or tokens[at + 1].kind == "mark"
    return Found(half, at + 1) if tokens[at].glued and alone else None


def _read_twelve(tokens: Tokens, at: int, minute: int) -> Found[int] | None:
    """12 noon, 12:00 midnight."""
    half = _TWELVES.get(text_at(tokens, at)) if minute == HALF_DAY else None
    return None if half is None else Found(half, at + 1)
