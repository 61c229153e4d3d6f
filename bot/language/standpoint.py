"""From where days are counted."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from bot.language.context import Context
from bot.language.times_of_day import Look
from storage.records import DateOrder, Weekday


@dataclass(frozen=True, slots=True)
class Standpoint:
    """``alone``: only a day can stand here, so that a bare number is a day of the month."""

    today: date
    look: Look
    week_starts: Weekday
    date_order: DateOrder
    alone: bool = False

    def looking(self, look: Look) -> Standpoint:
        """The same, looking that way."""
        return replace(self, look=look)

    def among_others(self) -> Standpoint:
        """The same, where other things than a day can stand too."""
        return Standpoint(self.today, self.look, self.week_starts, self.date_order) if self.alone else self

    @property
    def step(self) -> int:
        """1 looking forward, -1 looking back."""
        return 1 if self.look == "forward" else -1

    def sees(self, day: date) -> bool:
        """Whether the day is today or lies in the looking direction."""
        return day >= self.today if self.look == "forward" else day <= self.today


def standpoint(context: Context, look: Look, *, alone: bool = False) -> Standpoint:
    """That of the person, now."""
    return Standpoint(context.now.date(), look, context.week_starts, context.date_order, alone)
