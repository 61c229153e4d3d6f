"""How often something comes again, as said.

cycle    := ("every" | "each") [interval] (days | unit [on] | part of day) | adverb [on] | "once a" unit [on]
          | ["every"] position [of-month] | ["every"] names | ["every"] month day {joint day}
on       := ["on"] (days | position)
position := ["the"] place {joint place} weekday {joint position} | ["the"] place {joint place} ["day"] | "the beginning" | "the end"
place    := ordinal [["to" ["the"]] "last"] | "last"
of-month := ("of" | "in") ("the" | "every" | "each") [interval] "month" | ("of" | "in") month
interval := "other" | "second" | "third" | number
names    := days of more than one, or in the plural: tue and thu, tuesdays, mon-fri
"""

from __future__ import annotations

from dataclasses import replace

from bot.language.cycle import Cycle, Named
from bot.language.dayparts import PARTS
from bot.language.month_names import MONTHS
from bot.language.numbers import ORDINAL_WORDS, read_ordinal, read_whole
from bot.language.tokens import Found, Tokens, is_number, text_at
from bot.language.weekday_lists import EVERY, GROUPS, JOINTS, read_weekdays
from bot.language.weekdays import WEEKDAYS

_UNITS: dict[str, Cycle] = {
    word: cycle
    for cycle, words in (
        (Cycle("DAILY"), "day days"),
        (Cycle("WEEKLY"), "week weeks wk wks"),
        (Cycle("WEEKLY", 2), "fortnight fortnights"),
        (Cycle("MONTHLY"), "month months"),
        (Cycle("MONTHLY", 3), "quarter quarters"),
        (Cycle("YEARLY"), "year years"),
    )
    for word in words.split()
}
_ADVERBS: dict[str, Cycle] = {
    "daily": Cycle("DAILY"),
    "everyday": Cycle("DAILY"),
    "weekly": Cycle("WEEKLY"),
    "fortnightly": Cycle("WEEKLY", 2),
    "biweekly": Cycle("WEEKLY", 2),
    "monthly": Cycle("MONTHLY"),
    "quarterly": Cycle("MONTHLY", 3),
    "yearly": Cycle("YEARLY"),
    "annually": Cycle("YEARLY"),
}
_INTERVALS = {"other": 2, "second": 2, "third": 3, "fourth": 4, "fifth": 5}
_EDGES = {"beginning": 1, "begin": 1, "start": 1, "end": -1}
_MOST_PLACES = 8
CYCLE_WORDS = (
    EVERY
    | frozenset(WEEKDAYS)
    | frozenset(GROUPS)
    | frozenset(_ADVERBS)
    | frozenset(_EDGES)
    | ORDINAL_WORDS
    | {"once", "the", "on", "last", "bi"}
)


def read_cycle(tokens: Tokens, at: int) -> Found[Cycle] | None:
    """every other monday, tue and thu, weekdays, first friday of the month, every 2 weeks on mon, the 15th of each month."""
    if not is_number(tokens, at) and text_at(tokens, at) not in CYCLE_WORDS:
        return None
    at = at + 1 if text_at(tokens, at) == "on" else at
    word = text_at(tokens, at)
    if word in EVERY:
        return _read_every(tokens, at + 1)
    if word == "bi" and text_at(tokens, at + 1) == "-" and text_at(tokens, at + 2) == "weekly":
        return _read_on(tokens, Found(_ADVERBS["biweekly"], at + 3))
    if word in _ADVERBS:
        return _read_on(tokens, Found(_ADVERBS[word], at + 1))
    if word == "once":
        unit = _UNITS.get(text_at(tokens, at + 2)) if text_at(tokens, at + 1) in ("a", "every", "per") else None
        return _read_on(tokens, Found(unit, at + 3)) if unit else None
    return _read_names(tokens, at) or _read_position_of_month(tokens, at)


def _read_every(tokens: Tokens, at: int) -> Found[Cycle] | None:
    """What follows "every"."""
    placed = _read_position_of_month(tokens, at) or _read_yearly(tokens, at, 1)
    if placed is not None:
        return placed
    interval = _read_interval(tokens, at)
    days = read_weekdays(tokens, interval.end)
    if days is not None and not _is_place_alone(tokens, at):
        return Found(Cycle("WEEKLY", interval.value, days.value), days.end)
    unit = _UNITS.get(text_at(tokens, interval.end))
    if unit is not None:
        return _read_on(tokens, Found(replace(unit, interval=unit.interval * interval.value), interval.end + 1))
    if text_at(tokens, interval.end) in PARTS:
        return Found(Cycle("DAILY", interval.value), interval.end)
    return _read_position(tokens, at)


def _is_place_alone(tokens: Tokens, at: int) -> bool:
    """every first monday and every last friday are the month's; every second tuesday is each other week's."""
    return text_at(tokens, at) in ("first", "last", "1st")


def _read_interval(tokens: Tokens, at: int) -> Found[int]:
    """Every how many: 1 where nothing is said."""
    at = at + 1 if text_at(tokens, at) == "single" else at
    interval = _INTERVALS.get(text_at(tokens, at))
    if interval is not None:
        return Found(interval, at + 1)
    number = read_ordinal(tokens, at) or read_whole(tokens, at)
    return number if number is not None and 0 < number.value < 100 else Found(1, at)


def _read_names(tokens: Tokens, at: int) -> Found[Cycle] | None:
    """Days without "every": more than one of them, or in the plural, or of parts in the plural: monday mornings."""
    word = text_at(tokens, at)
    days = read_weekdays(tokens, at) if word in WEEKDAYS or word in GROUPS else None
    if days is None or word in ("weekday", "weekend", "workday"):
        return None
    part = text_at(tokens, days.end)
    plural = word in GROUPS or word.endswith("days") or (part in PARTS and part.endswith("s"))
    return Found(Cycle("WEEKLY", 1, days.value), days.end) if plural or len(days.value) > 1 else None


def _read_on(tokens: Tokens, cycle: Found[Cycle]) -> Found[Cycle]:
    """The cycle of a unit, on the days that may follow it: every 2 weeks on mon, monthly on the 15th, yearly on march 3."""
    after = cycle.end
    while text_at(tokens, after) in ("on", "at", ",") and after < cycle.end + 2:
        after += 1
    value = cycle.value
    if value.frequency == "DAILY" or (after == cycle.end and value.frequency != "WEEKLY"):
        return cycle
    days = read_weekdays(tokens, after)
    if days is not None:
        return Found(replace(value, days=days.value), days.end)
    yearly = _read_yearly(tokens, after, value.interval) if value.frequency == "YEARLY" else None
    if yearly is not None or value.frequency == "WEEKLY":
        return yearly or cycle
    position = _read_position(tokens, after)
    if position is None:
        return cycle
    month = _read_in_month(tokens, position.end) if value.frequency == "YEARLY" else Found(None, position.end)
    return (
        Found(replace(position.value, frequency=value.frequency, interval=value.interval, month=month.value), month.end) if month else cycle
    )


def _read_position_of_month(tokens: Tokens, at: int) -> Found[Cycle] | None:
    """A position in every month or in one month of every year."""
    position = _read_position(tokens, at)
    if position is None:
        return None
    of_month = _read_of_month(tokens, position.end)
    if of_month is not None:
        return Found(replace(position.value, interval=of_month.value), of_month.end)
    month = _read_in_month(tokens, position.end) if at and text_at(tokens, at - 1) in EVERY else None
    return Found(replace(position.value, frequency="YEARLY", month=month.value), month.end) if month else None


def _read_of_month(tokens: Tokens, at: int) -> Found[int] | None:
    """of the month, of each month, of every other month, every month: the interval."""
    start = at + 1 if text_at(tokens, at) in ("of", "in") else at
    word = text_at(tokens, start)
    if word not in EVERY and (word not in ("the", "a") or start == at):
        return None
    interval = _read_interval(tokens, start + 1) if word in EVERY else Found(1, start + 1)
    return Found(interval.value, interval.end + 1) if text_at(tokens, interval.end) in ("month", "months") else None


def _read_in_month(tokens: Tokens, at: int) -> Found[int] | None:
    month = MONTHS.get(text_at(tokens, at + 1)) if text_at(tokens, at) in ("in", "of") else None
    return Found(month, at + 2) if month else None


def _read_position(tokens: Tokens, at: int) -> Found[Cycle] | None:
    """Places and what is counted: first and third friday, the 4th and 10th, the last day, the beginning."""
    at = at + 1 if text_at(tokens, at) == "the" else at
    edge = _EDGES.get(text_at(tokens, at))
    if edge is not None:
        return Found(Cycle("MONTHLY", month_days=(edge,)), at + 1)
    named = _read_named_places(tokens, at)
    if named is not None:
        return Found(Cycle("MONTHLY", days=named.value), named.end)
    places = _read_places(tokens, at)
    if places is None:
        return None
    end = places.end + 1 if text_at(tokens, places.end) == "day" else places.end
    return Found(Cycle("MONTHLY", month_days=tuple(sorted(places.value))), end)


def _read_named_places(tokens: Tokens, at: int) -> Found[tuple[Named, ...]] | None:
    """first and third friday and second tuesday."""
    named: list[Named] = []
    end = after = at
    while len(named) < _MOST_PLACES and (places := _read_places(tokens, after)) is not None:
        weekday = WEEKDAYS.get(text_at(tokens, places.end))
        if weekday is None:
            break
        named += (Named(weekday, place) for place in places.value)
        end = places.end + 1
        after = end + 1 if text_at(tokens, end) in JOINTS else len(tokens)
    return Found(tuple(named), end) if named else None


def _read_places(tokens: Tokens, at: int) -> Found[tuple[int, ...]] | None:
    places: list[int] = []
    end = after = at
    while len(places) < _MOST_PLACES:
        after = after + 1 if text_at(tokens, after) == "the" else after
        place = _read_place(tokens, after)
        if place is None:
            break
        places.append(place.value)
        end = after = place.end
        while text_at(tokens, after) in JOINTS and after < end + 2:
            after += 1
    return Found(tuple(places), end) if places else None


def _read_place(tokens: Tokens, at: int) -> Found[int] | None:
    if text_at(tokens, at) == "last":
        return Found(-1, at + 1)
    ordinal = read_ordinal(tokens, at)
    if ordinal is None or not 0 < ordinal.value < 32:
        return None
    after = ordinal.end
    while text_at(tokens, after) in ("to", "the") and after < ordinal.end + 2:
        after += 1
    return Found(-ordinal.value, after + 1) if text_at(tokens, after) == "last" else ordinal


def _read_yearly(tokens: Tokens, at: int, interval: int) -> Found[Cycle] | None:
    """march 3rd, aug 20 and 30, 3rd of march, june."""
    month = MONTHS.get(text_at(tokens, at))
    if month is None:
        places = _read_places(tokens, at + 1 if text_at(tokens, at) == "the" else at)
        named = _read_in_month(tokens, places.end) if places else None
        if places is None or named is None:
            return None
        return Found(Cycle("YEARLY", interval, month=named.value, month_days=tuple(sorted(places.value))), named.end)
    days: list[int] = []
    end = after = at + 1
    while len(days) < _MOST_PLACES:
        day = read_ordinal(tokens, after) or read_whole(tokens, after)
        if day is None or not 0 < day.value < 32:
            break
        days.append(day.value)
        end = day.end
        after = end + 1 if text_at(tokens, end) in JOINTS else end
    return Found(Cycle("YEARLY", interval, month=month, month_days=tuple(sorted(days)) or (1,)), end)
