"""Days by their name.

weekday := [which] name | [which] name ["of"] week | week ["on"] name | name ("after next" | "before last" | "week" | "fortnight")
        | number name ("from now" | "ago") | "in" number name
which   := "next" | "last" | "this" | "past" | "coming" | "following" …
week    := ("next" | "this" | "last") "week" | "week" ("after next" | "before last")
        | number "weeks" ("from now" | "ago") | "in" number "weeks"

The convention: a name alone is the nearest such day in the looking direction,
never today. "this" is the day of the current calendar week, "next" that of the
following one, "last" the latest one before yesterday.
"""

from __future__ import annotations

from datetime import date, timedelta

from bot.language.numbers import NUMBER_WORDS, read_whole
from bot.language.partial_days import day_shifted
from bot.language.relative_days import WEEKS_BEHIND
from bot.language.standpoint import Standpoint
from bot.language.times_of_day import Look
from bot.language.tokens import Found, Tokens, text_at
from storage.records import Weekday

_NAMES = (
    "monday mon monday's mondays",
    "tuesday tue tues tuesday's tuesdays",
    "wednesday wed weds wednes wednesday's wednesdays wensday wendesday wednsday",
    "thursday thu thur thurs thursday's thursdays",
    "friday fri friday's fridays",
    "saturday sat saturday's saturdays",
    "sunday sun sunday's sundays",
)
WEEKDAYS = {word: Weekday(number) for number, words in enumerate(_NAMES) for word in words.split()}
IN_THE_PLURAL = frozenset(word for word in WEEKDAYS if word.endswith("days"))
"""Every one of them is meant: thursdays."""
_COUNTED = frozenset({"ago", "from", "later"})
_SHORT = frozenset("mon tue tues wed weds thu thur thurs fri sat sun".split())
WHICH = frozenset("next last this past coming upcoming following previous".split())
WEEKDAY_WORDS = frozenset(WEEKDAYS) | WHICH | {"the"}
WEEK_WORDS = frozenset({"current", "week"})
WEEKEND_WORDS = WHICH | {"the", "weekend"}
COUNT_WORDS = NUMBER_WORDS | {"in"}
_BEYOND: dict[tuple[str, str], Look] = {("after", "next"): "forward", ("before", "last"): "back"}
_WEEK = frozenset({"week", "week's"})
_WEEK_SHIFTS = {"next": 1, "following": 1, "coming": 1, "this": 0, "current": 0, "last": -1, "previous": -1, "past": -1}


def weekday_at(tokens: Tokens, at: int) -> Found[Weekday] | None:
    """The name of a day, with the point of an abbreviation."""
    name = WEEKDAYS.get(text_at(tokens, at))
    if name is None:
        return None
    short = tokens[at].text in _SHORT and text_at(tokens, at + 1) == "." and tokens[at + 1].glued
    return Found(name, at + 2 if short else at + 1)


def every_week(tokens: Tokens) -> bool:
    """Whether a day is named in the plural, and none is counted or a single one: thursdays at 4, and not in 2 fridays."""
    plural = [at for at, token in enumerate(tokens) if token.text in IN_THE_PLURAL]
    return bool(plural) and not any(_is_single(tokens, at) for at in plural)


def _is_single(tokens: Tokens, at: int) -> bool:
    counted = text_at(tokens, at + 1) in _COUNTED or (at > 1 and text_at(tokens, at - 2) == "in")
    return counted or (at > 0 and text_at(tokens, at - 1) in WHICH)


def read_weekday(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """A day by its name, in the week that is said or by the convention above."""
    week = read_week(tokens, at, stand)
    if week is not None:
        return _read_name_after(tokens, week, stand)
    which, name_at = read_which(tokens, at)
    name = weekday_at(tokens, name_at)
    return (_read_week_after(tokens, name, stand) or Found(_chosen(name.value, which, stand), name.end)) if name else None


def in_week(first: date, name: int, starts: int) -> date:
    """The day called ``name`` in the week that begins on ``first``."""
    return first + timedelta(days=(name - starts) % 7)


def week_of(day: date, starts: int) -> date:
    """The first day of the day's calendar week."""
    return day - timedelta(days=(day.weekday() - starts) % 7)


def nearest(name: int, today: date, look: Look) -> date:
    """The nearest day called ``name`` in the looking direction, today left out."""
    away = (name - today.weekday() - 1) % 7 + 1 if look == "forward" else -((today.weekday() - name - 1) % 7 + 1)
    return today + timedelta(days=away)


def read_week(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """The first day of a week by its place from now: next week, last week's, the week, the week after next."""
    the = text_at(tokens, at) == "the"
    at = at + 1 if the else at
    shift = _WEEK_SHIFTS.get(text_at(tokens, at))
    week_at = at if shift is None else at + 1
    if text_at(tokens, week_at) not in _WEEK:
        return None
    beyond = _BEYOND.get((text_at(tokens, week_at + 1), text_at(tokens, week_at + 2))) if shift is None else None
    if shift is None and not the and not beyond:
        return None
    weeks = shift or (0 if beyond is None else 2 if beyond == "forward" else -2)
    first = day_shifted(week_of(stand.today, stand.week_starts), 7 * weeks)
    return Found(first, week_at + 3 if beyond else week_at + 1) if first else None


def read_weekend(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """The saturday of a weekend: this weekend, next weekend, the weekend."""
    which, after = read_which(tokens, at)
    if text_at(tokens, after) != "weekend":
        return None
    beyond = _BEYOND.get((text_at(tokens, after + 1), text_at(tokens, after + 2))) if not which else None
    if beyond is not None:
        there = _chosen(Weekday.SATURDAY, "next" if beyond == "forward" else "last", stand)
        return Found(there + timedelta(weeks=1 if beyond == "forward" else -1), after + 3)
    return Found(_chosen(Weekday.SATURDAY, which, stand), after + 1)


def _read_name_after(tokens: Tokens, week: Found[date], stand: Standpoint) -> Found[date] | None:
    after = week.end
    while text_at(tokens, after) in ("on", "-", ",") and after < week.end + 2:
        after += 1
    name = weekday_at(tokens, after)
    return None if name is None else Found(in_week(week.value, name.value, stand.week_starts), name.end)


def read_which(tokens: Tokens, at: int) -> tuple[str, int]:
    """The word that says which of several, empty where there is none, and the index after it: next, this coming, the last."""
    at = at + 1 if text_at(tokens, at) == "the" else at
    which = text_at(tokens, at)
    if which not in WHICH:
        return "", at
    if which == "this" and text_at(tokens, at + 1) in WHICH:
        return text_at(tokens, at + 1), at + 2
    return which, at + 1


def _read_week_after(tokens: Tokens, name: Found[Weekday], stand: Standpoint) -> Found[date] | None:
    """of next week, next week, after next, before last, week and fortnight (the British ones: tuesday week)."""
    after = name.end
    beyond = _BEYOND.get((text_at(tokens, after), text_at(tokens, after + 1)))
    if beyond is not None:
        return Found(nearest(name.value, stand.today, beyond) + timedelta(weeks=1 if beyond == "forward" else -1), after + 2)
    weeks = WEEKS_BEHIND.get(text_at(tokens, after))
    if weeks is not None:
        return Found(nearest(name.value, stand.today, "forward") + timedelta(weeks=weeks), after + 1)
    while text_at(tokens, after) in ("of", ",", "in", "from") and after < name.end + 2:
        after += 1
    week = read_week(tokens, after, stand)
    return None if week is None else Found(in_week(week.value, name.value, stand.week_starts), week.end)


def read_counted_weekday(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """2 sundays from now, three mondays ago, in 2 sundays."""
    today, lead = stand.today, text_at(tokens, at) == "in"
    count = read_whole(tokens, at + 1 if lead else at)
    name = weekday_at(tokens, count.end) if count else None
    if count is None or name is None or not 0 < count.value < 1000:
        return None
    word = text_at(tokens, name.end)
    if lead:
        return Found(nearest(name.value, today, "forward") + timedelta(weeks=count.value - 1), name.end)
    if word in ("later", "hence") or (word == "from" and text_at(tokens, name.end + 1) == "now"):
        day = nearest(name.value, today, "forward") + timedelta(weeks=count.value - 1)
        return Found(day, name.end + 1 if word != "from" else name.end + 2)
    if word in ("ago", "back"):
        return Found(nearest(name.value, today, "back") - timedelta(weeks=count.value - 1), name.end + 1)
    return None


def _chosen(name: Weekday, which: str, stand: Standpoint) -> date:
    today = stand.today
    this = in_week(week_of(today, stand.week_starts), name, stand.week_starts)
    if which in ("next", "following"):
        return this + timedelta(weeks=1)
    if which in ("last", "previous"):
        return nearest(name, today - timedelta(days=1), "back")
    if which in ("coming", "upcoming"):
        return nearest(name, today, "forward")
    if which == "past":
        return nearest(name, today, "back")
    return this if which == "this" and (stand.look == "back" or this >= today) else nearest(name, today, stand.look)
