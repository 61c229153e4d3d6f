"""Days, times and lengths as iCalendar writes them. Source: RFC 5545, sections 3.3.4 to 3.3.9."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

MOMENT = re.compile(r"(\d{8})(?:T(\d{4}(?:\d\d)?)(Z?))?", re.ASCII | re.IGNORECASE)
LENGTH = re.compile(
    r"([+-]?)P(?=.)(?:(\d{1,5})W)?(?:(\d{1,6})D)?(?:T(?:(\d{1,7})H)?(?:(\d{1,8})M)?(?:(\d{1,9})S)?)?", re.ASCII | re.IGNORECASE
)

# Far from the ends of what can be counted, so that no sum with a length leaves it.
YEARS = (100, 9000)
LONGEST = timedelta(days=36_525)


@dataclass(frozen=True, slots=True)
class Moment:
    """What the clocks of ``zone`` show at a moment; midnight and no zone where it is a day without a time."""

    wall: datetime
    zone: tzinfo | None

    @property
    def is_day(self) -> bool:
        """Whether it has no time of day."""
        return self.zone is None

    def wall_in(self, zone: tzinfo | None) -> datetime:
        """What the clocks of ``zone`` show then. A day stays the same day everywhere."""
        if self.zone is None or zone is None or zone is self.zone:
            return self.wall
        return instant(self.wall, self.zone).astimezone(zone).replace(tzinfo=None)


@dataclass(frozen=True, slots=True)
class Length:
    """How long something lasts: first ``on_clock``, by which the clock's hands move, then ``exact``, which really passes.

    The two differ where a clock changes: RFC 5545, section 3.3.6.
    """

    on_clock: timedelta = timedelta()
    exact: timedelta = timedelta()

    @property
    def longest(self) -> timedelta:
        """No less than the time that really passes, give or take a clock change."""
        return self.on_clock + self.exact

    def end(self, wall: datetime, zone: tzinfo) -> datetime:
        """The UTC instant of the end of what starts at ``wall`` in ``zone``; never before the start."""
        starts = instant(wall, zone)
        ends = instant(wall + self.on_clock, zone)
        if ends <= starts:
            ends = starts + self.on_clock
        return ends + self.exact


def instant(wall: datetime, zone: tzinfo) -> datetime:
    """The UTC instant at which the clocks of ``zone`` show ``wall``; of a repeated hour the first. RFC 5545, section 3.3.5."""
    return wall.replace(tzinfo=zone, fold=0).astimezone(UTC)


def read_moment(text: str, zone: tzinfo | None) -> Moment:
    """The day or time that ``text`` gives, on the clocks of ``zone`` where it does not say UTC. Raises ValueError."""
    match = MOMENT.fullmatch(text.strip())
    if match is None:
        raise ValueError(text[:40])
    day, at, is_utc = match.groups(default="")
    wall = datetime(int(day[:4]), int(day[4:6]), int(day[6:]), int(at[:2] or 0), int(at[2:4] or 0), int(at[4:] or 0))
    if not YEARS[0] <= wall.year <= YEARS[1]:
        raise ValueError(text[:40])
    if not at:
        return Moment(wall, None)
    return Moment(wall, UTC if is_utc else zone)


def between(starts: Moment, ends: Moment) -> Length:
    """How long it is from ``starts`` to ``ends``: by the clock if one clock shows both, else exactly. Raises ValueError."""
    if starts.zone is ends.zone:
        return _bearable(Length(on_clock=ends.wall - starts.wall))
    if starts.zone is None or ends.zone is None:
        raise ValueError("from a day to a time")
    return _bearable(Length(exact=instant(ends.wall, ends.zone) - instant(starts.wall, starts.zone)))


def read_length(text: str) -> Length:
    """The length that ``text`` gives. Weeks and days go by the clock, the rest is exact. Raises ValueError."""
    match = LENGTH.fullmatch(text.strip())
    if match is None:
        raise ValueError(text[:40])
    sign, *parts = match.groups()
    weeks, days, hours, minutes, seconds = (int(part or 0) for part in parts)
    way = -1 if sign == "-" else 1
    return _bearable(Length(way * timedelta(weeks=weeks, days=days), way * timedelta(hours=hours, minutes=minutes, seconds=seconds)))


def _bearable(length: Length) -> Length:
    if max(abs(length.on_clock), abs(length.exact)) > LONGEST:
        raise ValueError("longer than a century")
    return length
