"""The text of a recurrence rule -> Rule. Source: RFC 5545, section 3.3.10."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime, time, tzinfo
from enum import IntEnum

from bot.outside.calendars.moments import read_moment
from bot.rules.occurrences import RuleFault
from bot.rules.weeks import DAY_CODES

HIGHEST_INTERVAL = 1_000_000
NTH_WEEKDAY = re.compile(rf"([+-]?\d{{1,2}})?({'|'.join(DAY_CODES)})")
LAST_TIME = time(23, 59, 59)


class Frequency(IntEnum):
    """How long a period of a rule is, longest first."""

    YEARLY = 0
    MONTHLY = 1
    WEEKLY = 2
    DAILY = 3
    HOURLY = 4
    MINUTELY = 5
    SECONDLY = 6


@dataclass(frozen=True, slots=True)
class NthWeekday:
    """A weekday as ``date.weekday()`` numbers it; the ``nth`` of its month or year, from the end if negative; 0: every one."""

    nth: int
    weekday: int


@dataclass(frozen=True, slots=True)
class Rule:
    """A recurrence rule. Sets that are empty rule nothing out. ``until`` is on the clocks of the event's own zone."""

    frequency: Frequency
    interval: int = 1
    count: int | None = None
    until: datetime | None = None
    week_starts: int = 0
    months: frozenset[int] = frozenset()
    week_numbers: frozenset[int] = frozenset()
    year_days: frozenset[int] = frozenset()
    month_days: frozenset[int] = frozenset()
    weekdays: tuple[NthWeekday, ...] = ()
    hours: frozenset[int] = frozenset()
    minutes: frozenset[int] = frozenset()
    seconds: frozenset[int] = frozenset()
    positions: frozenset[int] = frozenset()


def read_rule(text: str, zone: tzinfo | None) -> Rule:
    """The rule that ``text`` gives to an event that follows the clocks of ``zone``, or has no time of day if that is None.

    A negative COUNT, which some programs write for "without end", counts as
    none. Raises RuleFault.
    """
    parts = _Parts(text)
    rule = Rule(
        frequency=parts.frequency(),
        interval=parts.number("INTERVAL", 1, HIGHEST_INTERVAL) or 1,
        count=parts.count(),
        until=parts.until(zone),
        week_starts=parts.week_starts(),
        months=parts.numbers("BYMONTH", 1, 12),
        week_numbers=parts.numbers("BYWEEKNO", 1, 53, signed=True),
        year_days=parts.numbers("BYYEARDAY", 1, 366, signed=True),
        month_days=parts.numbers("BYMONTHDAY", 1, 31, signed=True),
        weekdays=parts.weekdays(),
        hours=parts.numbers("BYHOUR", 0, 23),
        minutes=parts.numbers("BYMINUTE", 0, 59),
        seconds=parts.numbers("BYSECOND", 0, 59),
        positions=parts.numbers("BYSETPOS", 1, 366, signed=True),
    )
    parts.refuse_others()
    return rule


class _Parts:
    """The NAME=VALUE parts of a rule, taken out one by one."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._parts: dict[str, str] = {}
        for part in text.upper().replace(" ", "").strip(";").split(";"):
            name, equals, value = part.partition("=")
            if not equals or name in self._parts:
                raise self._fault("expected NAME=VALUE parts, each once")
            self._parts[name] = value

    def frequency(self) -> Frequency:
        name = self._parts.pop("FREQ", "")
        if name not in Frequency.__members__:
            raise self._fault("FREQ must be one of the seven periods")
        return Frequency[name]

    def number(self, name: str, lowest: int, highest: int) -> int | None:
        value = self._parts.pop(name, None)
        return None if value is None else self._number(name, value, lowest, highest, signed=False)

    def numbers(self, name: str, lowest: int, highest: int, *, signed: bool = False) -> frozenset[int]:
        value = self._parts.pop(name, None)
        if value is None:
            return frozenset()
        return frozenset(self._number(name, each, lowest, highest, signed=signed) for each in value.split(","))

    def count(self) -> int | None:
        if self._parts.get("COUNT", "").startswith("-"):
            del self._parts["COUNT"]
        return self.number("COUNT", 1, 10**9)

    def until(self, zone: tzinfo | None) -> datetime | None:
        """A day alone means all of that day, also where the event has a time."""
        value = self._parts.pop("UNTIL", None)
        if value is None:
            return None
        try:
            moment = read_moment(value, zone)
        except ValueError as error:
            raise self._fault(f"UNTIL names no time: {value}") from error
        if zone is None or moment.zone is None:
            return datetime.combine(moment.wall, LAST_TIME)
        return moment.wall_in(zone)

    def week_starts(self) -> int:
        value = self._parts.pop("WKST", DAY_CODES[0])
        if value not in DAY_CODES:
            raise self._fault(f"WKST is no weekday: {value}")
        return DAY_CODES.index(value)

    def weekdays(self) -> tuple[NthWeekday, ...]:
        value = self._parts.pop("BYDAY", None)
        return () if value is None else tuple(self._weekday(each) for each in value.split(","))

    def refuse_others(self) -> None:
        """A part that is not known would change what the rule means. One that begins with X- is the writer's own affair."""
        unknown = sorted(name for name in self._parts if not name.startswith("X-"))
        if unknown:
            raise self._fault(f"unknown: {', '.join(unknown)}")

    def _weekday(self, text: str) -> NthWeekday:
        match = NTH_WEEKDAY.fullmatch(text)
        if match is None:
            raise self._fault(f"BYDAY holds no weekday: {text}")
        return NthWeekday(int(match[1] or 0), DAY_CODES.index(match[2]))

    def _number(self, name: str, text: str, lowest: int, highest: int, *, signed: bool) -> int:
        if re.fullmatch(r"[+-]?[0-9]{1,9}", text) is None:
            raise self._fault(f"{name} holds no number: {text}")
        number = int(text)
        if not lowest <= (abs(number) if signed else number) <= highest:
            raise self._fault(f"{name} is out of range: {text}")
        return number

    def _fault(self, reason: str) -> RuleFault:
        return RuleFault(self._text[:200], reason[:200])
