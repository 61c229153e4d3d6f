"""How days, times, amounts and titles are spelt in a reply, in a friendly way or in an exact one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from typing import Literal, TypeAlias

from bot.voice.times_of_day import brief_span, brief_time, typed
from storage.records import ClockStyle

Clocks: TypeAlias = Literal["short", "full", "brief", "halves"]

SETTING_WORDS = {
    "morning": "morning at {}",
    "evening": "evening at {}",
    "recap": "recap at {}",
    "waking": "waking {}",
    "week_starts": "week starts {}",
    "dates": "dates {}",
    "clock": "{} clock",
    "place": "place {}",
    "zone": "zone {}",
    "free_share": "free share {}%",
    "travel": "travel {}m",
    "quiet": "quiet until {}",
}

SHORT_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
SHORT_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True, slots=True)
class Spelling:
    """``quoted`` puts titles in quotes; ``exact`` writes ISO days.

    ``dated`` puts the date behind a weekday, for who reads it and may think of the next one.
    Times are written ``short`` (9), ``full`` (09:00), or by the 12-hour clock ``brief`` (9am) or in full ``halves`` of the day (9:00am).
    """

    today: date
    quoted: bool
    exact: bool
    clocks: Clocks = "short"
    dated: bool = False

    def title(self, title: str) -> str:
        """A title, in those quotes that it does not hold itself."""
        if not self.quoted:
            return title
        return f"“{title}”" if '"' in title else f'"{title}"'

    def day(self, day: date) -> str:
        """yesterday, today, tomorrow, a weekday within six days, else the ISO day."""
        away = (day - self.today).days
        if self.exact or abs(away) > 6:
            return day.isoformat()
        date_behind = f" {day.day} {SHORT_MONTHS[day.month - 1]}" if self.dated else ""
        return {-1: "yesterday", 0: "today", 1: "tomorrow"}.get(away, SHORT_DAYS[day.weekday()] + date_behind)

    def clock(self, at: time) -> str:
        """9:05, 09:05, or 9:05am; brief also noon and midnight."""
        if self.clocks == "brief":
            return typed(brief_time(at, ClockStyle.TWELVE))
        if self.clocks == "halves":
            return f"{at.hour % 12 or 12}:{at.minute:02}{'am' if at.hour < 12 else 'pm'}"
        return f"{at:%H:%M}" if self.clocks == "full" else f"{at.hour}:{at.minute:02}"

    def hours(self, start: time, end: time | None) -> str:
        """9-12:30, 09:00-12:30, 9am-12:30pm, or 9:00am-12:30pm; a start alone as its time."""
        if end is None:
            return self.clock(start)
        if self.clocks == "brief":
            return typed(brief_span(start, end, ClockStyle.TWELVE))
        if self.clocks != "short":
            return f"{self.clock(start)}-{self.clock(end)}"
        return f"{_short(start)}-{_short(end)}"


def _short(at: time) -> str:
    return f"{at.hour}:{at.minute:02}" if at.minute else str(at.hour)


def amount_words(minutes: int) -> str:
    """45m, 2h, 2h30."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest}m"
    return f"{hours}h{rest:02}" if rest else f"{hours}h"


def later_words(minutes: int) -> str:
    """30m later, 1h earlier."""
    return f"{amount_words(abs(minutes))} {'later' if minutes > 0 else 'earlier'}"


def travel_words(before: int | None, after: int | None) -> str | None:
    """ "20m each way", "20m before and 10m after", "20m before"; None where nothing was said."""
    if before == after:
        return None if before is None else f"{amount_words(before)} each way"
    sides = [f"{amount_words(minutes)} {side}" for minutes, side in ((before, "before"), (after, "after")) if minutes is not None]
    return " and ".join(sides)
