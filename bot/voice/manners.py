"""How this person wants days, times and hours written."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Final, Literal
from zoneinfo import ZoneInfo

from bot.voice.times_of_day import brief_span, example_text, span_text, time_text
from storage.records import ClockStyle, DateOrder, DecimalMark, Person

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
LONG_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
LONG_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


MARKS: Final[dict[DecimalMark, Literal[".", ","]]] = {DecimalMark.POINT: ".", DecimalMark.COMMA: ","}


@dataclass(frozen=True, slots=True)
class Manners:
    """The person's zone, date order, decimal mark and clock, and the local day on which we speak."""

    zone: ZoneInfo
    date_order: DateOrder
    today: date
    decimals: DecimalMark = DecimalMark.POINT
    clock_style: ClockStyle = ClockStyle.TWENTY_FOUR

    def local(self, instant: datetime) -> datetime:
        """What the person's clock shows at a UTC instant."""
        return instant.astimezone(self.zone)

    def clock(self, instant: datetime) -> str:
        """ "13:00", the local time of day of a UTC instant."""
        return time_text(self.local(instant).time(), self.clock_style)

    def span(self, starts: datetime, ends: datetime) -> str:
        """ "13:00–17:00" in local time."""
        return span_text(self.local(starts).time(), self.local(ends).time(), self.clock_style)

    def time_of_day(self, at: time) -> str:
        """ "13:00", or "1:00 pm"."""
        return time_text(at, self.clock_style)

    def times(self, starts: time, ends: time | None) -> str:
        """ "13:00–17:00", or "1:00–5:00 pm"; the start alone where no end was said."""
        return self.time_of_day(starts) if ends is None else span_text(starts, ends, self.clock_style)

    def brief_times(self, starts: time, ends: time) -> str:
        """ "13:00–17:00", or "1–5 pm"."""
        return brief_span(starts, ends, self.clock_style)

    def example(self, example: str) -> str:
        """What may be typed, written by us with 24 hours, as the person would type it."""
        return example_text(example, self.clock_style)

    def day(self, day: date) -> str:
        """ "Tue 3 Mar", with the year when it is another one than today's."""
        year = "" if day.year == self.today.year else f" {day.year}"
        return f"{DAYS[day.weekday()]} {self._in_order(day, MONTHS)}{year}"

    def long_day(self, day: date) -> str:
        """ "Tuesday 3 March"."""
        return f"{LONG_DAYS[day.weekday()]} {self._in_order(day, LONG_MONTHS)}"

    def days(self, first: date, last: date) -> str:
        """ "2–8 March", "30 March – 5 April"; a single day as such."""
        if first == last:
            return self.day(first)
        if (first.year, first.month) != (last.year, last.month):
            return f"{self.day(first)} – {self.day(last)}"
        month = LONG_MONTHS[first.month - 1]
        span = f"{first.day}–{last.day}"
        year = "" if first.year == self.today.year else f" {first.year}"
        return (f"{span} {month}" if self.date_order is DateOrder.DAY_MONTH else f"{month} {span}") + year

    def stretch(self, first: date, last: date) -> str:
        """ "2026" for a whole year, "March 2026" for a whole month, else the days."""
        if (first.day, first.month, last.day, last.month, first.year) == (1, 1, 31, 12, last.year):
            return str(first.year)
        if first.day == 1 and first < last and next_day(last) == _month_after(first):
            return month_text(first)
        return self.days(first, last)

    def near_day(self, day: date) -> str:
        """ "today", "tomorrow", "yesterday", or the day by name."""
        names = {0: "today", 1: "tomorrow", -1: "yesterday"}
        return names.get((day - self.today).days, self.day(day))

    def number(self, number: Decimal) -> str:
        """ "14.50", or "14,50"."""
        return f"{number:f}".replace(".", MARKS[self.decimals])

    def ratio(self, ratio: float) -> str:
        """ "1.2", or "1,2"."""
        return self.number(Decimal(f"{ratio:.1f}"))

    def _in_order(self, day: date, months: tuple[str, ...]) -> str:
        month = months[day.month - 1]
        return f"{day.day} {month}" if self.date_order is DateOrder.DAY_MONTH else f"{month} {day.day}"


def manners_of(person: Person, now: datetime) -> Manners:
    """The manners for ``person`` at the UTC instant ``now``."""
    zone = ZoneInfo(person.zone)
    return Manners(zone, person.date_order, now.astimezone(zone).date(), person.decimals, person.clock_style)


def hours_text(minutes: int) -> str:
    """Minutes as people say them: "3 h 30", "3 h", "45 min"."""
    hours, rest = divmod(abs(minutes), 60)
    sign = "-" if minutes < 0 else ""
    if hours == 0:
        return f"{sign}{rest} min"
    return f"{sign}{hours} h {rest:02d}" if rest else f"{sign}{hours} h"


def month_text(day: date) -> str:
    """ "March 2026"."""
    return f"{LONG_MONTHS[day.month - 1]} {day.year}"


def title_text(name: str) -> str:
    """A category's name as a title: "front desk" becomes "Front desk"."""
    return name[:1].upper() + name[1:]


def employed(category: str, employer: str) -> str:
    """ "Museum, Museum of Canals and Locks"; a job without an employer's own name goes by its category's."""
    return title_text(category) if employer.casefold() == category.casefold() else f"{title_text(category)}, {employer}"


def count_text(count: int, one: str, many: str | None = None) -> str:
    """ "1 task", "3 tasks"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def listed(names: list[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    if len(names) < 2:
        return "".join(names)
    return ", ".join(names[:-1]) + " and " + names[-1]


def _month_after(first: date) -> date:
    return date(first.year + first.month // 12, first.month % 12 + 1, 1)


def next_day(day: date) -> date:
    """The day after."""
    return day + timedelta(days=1)
