"""How often something comes again, as a value."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

from bot.language.feasts import nth_weekday
from bot.language.partial_days import last_of_month
from bot.rules.weeks import DAY_CODES

Frequency: TypeAlias = Literal["DAILY", "WEEKLY", "MONTHLY", "YEARLY"]


@dataclass(frozen=True, slots=True, order=True)
class Named:
    """A weekday (0 is Monday), every one or the one at ``place`` in the month, from 1, or from -1 at its end."""

    weekday: int
    place: int = 0

    def code(self) -> str:
        """As RFC 5545 writes it: FR, 1FR, -1FR."""
        return f"{self.place or ''}{DAY_CODES[self.weekday]}"

    def is_day(self, day: date) -> bool:
        """Whether the day is one of these."""
        if not self.place:
            return day.weekday() == self.weekday
        return nth_weekday(day.replace(day=1), self.place, self.weekday) == day


@dataclass(frozen=True, slots=True)
class Cycle:
    """``month_days`` are days of the month, from 1, or from -1 at its end."""

    frequency: Frequency
    interval: int = 1
    days: tuple[Named, ...] = ()
    month_days: tuple[int, ...] = ()
    month: int | None = None

    def rule(self) -> str:
        """The parts of an RFC 5545 recurrence rule (section 3.3.10), without its end."""
        parts = [f"FREQ={self.frequency}"]
        if self.interval > 1:
            parts.append(f"INTERVAL={self.interval}")
        if self.month is not None:
            parts.append(f"BYMONTH={self.month}")
        if self.month_days:
            parts.append(f"BYMONTHDAY={','.join(map(str, self.month_days))}")
        if self.days:
            parts.append(f"BYDAY={','.join(day.code() for day in self.days)}")
        return ";".join(parts)

    def falls_on(self, day: date) -> bool:
        """Whether the cycle may begin on the day."""
        if self.month is not None and day.month != self.month:
            return False
        from_end = day.day - last_of_month(day.replace(day=1)).day - 1
        if self.month_days and day.day not in self.month_days and from_end not in self.month_days:
            return False
        return not self.days or any(named.is_day(day) for named in self.days)
