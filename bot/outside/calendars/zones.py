"""The time zones that a calendar names or describes. Source: RFC 5545, sections 3.2.19 and 3.6.5."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime, timedelta, timezone, tzinfo
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bot.outside.calendars.limits import Allowance, Limits, TooMuchWork
from bot.outside.calendars.lines import DAYLIGHT, STANDARD, Component, Property
from bot.outside.calendars.moments import read_moment
from bot.outside.calendars.rules import read_rule
from bot.outside.calendars.walking import walk

OFFSET = re.compile(r"([+-])(\d\d):?(\d\d):?(\d\d)?", re.ASCII)
ONE_YEAR = timedelta(days=366)


class DescribedZone(tzinfo):
    """A zone made of the changes that a calendar describes: pairs of a UTC time and the offset from then on, in order."""

    def __init__(self, name: str, before: timedelta, changes: Iterable[tuple[datetime, timedelta]]) -> None:
        self._name = name
        self._offsets = [before]
        self._at: list[datetime] = []
        for at, offset in sorted(changes):
            if offset != self._offsets[-1]:
                self._at.append(at)
                self._offsets.append(offset)
        steps = list(zip(self._at, self._offsets, self._offsets[1:], strict=False))
        # On the clock a change begins and ends at two times: in between, they are left out or shown twice (PEP 495).
        self._first_shown = [at + min(old, new) for at, old, new in steps]
        self._last_shown = [at + max(old, new) for at, old, new in steps]

    def utcoffset(self, at: datetime | None, /) -> timedelta:
        """The offset at a time on its clocks."""
        if at is None:
            return self._offsets[-1]
        shown = self._first_shown if at.fold else self._last_shown
        return self._offsets[bisect_right(shown, at.replace(tzinfo=None))]

    def fromutc(self, at: datetime, /) -> datetime:
        """What its clocks show at a UTC time."""
        offset = self._offsets[bisect_right(self._at, at.replace(tzinfo=None))]
        shown = at + offset
        return shown if self.utcoffset(shown) == offset else shown.replace(fold=1)

    def dst(self, at: datetime | None, /) -> None:
        """Not known: only the whole offset matters here."""

    def tzname(self, at: datetime | None, /) -> str:
        """The name that the calendar gave it."""
        return self._name


class Zones:
    """The zones that one calendar speaks of. ``opens`` and ``closes`` bound the UTC times that are asked for."""

    def __init__(self, described: Iterable[Component], opens: datetime, closes: datetime, limits: Limits, allowance: Allowance) -> None:
        self._described: dict[str, Component] = {}
        for component in list(described)[: limits.most_zones]:
            self._described.setdefault(_tzid(component, limits), component)
        self._stretch = (opens.replace(tzinfo=None) - 2 * ONE_YEAR, closes.replace(tzinfo=None) + ONE_YEAR)
        self._limits = limits
        self._allowance = allowance
        self._known: dict[str, tzinfo | None] = {}

    def find(self, name: str) -> tzinfo | None:
        """The zone of that name, or None.

        The tz database goes before the calendar's own description, which often
        is years old; then come the names that Windows uses, and ones with the
        program's name before that of the tz database.
        """
        if name not in self._known and len(self._known) < self._limits.most_zones:
            self._known[name] = self._look_for(name)
        return self._known.get(name)

    def _look_for(self, name: str) -> tzinfo | None:
        plain = name.strip('"/ ')
        zone: tzinfo | None = named_zone(plain) or named_zone(_windows(plain))
        if zone is None and name in self._described:
            zone = self._describe(name, self._described[name])
        parts = plain.split("/")
        return zone or next(filter(None, (named_zone("/".join(parts[-count:])) for count in (3, 2) if count < len(parts))), None)

    def _describe(self, name: str, component: Component) -> tzinfo | None:
        changes: list[tuple[datetime, timedelta, timedelta]] = []
        try:
            for part in component.named(STANDARD) + component.named(DAYLIGHT):
                changes += self._changes(part)
        except (ValueError, TooMuchWork):
            return None
        if not changes or len(changes) > self._limits.most_changes_a_zone:
            return None
        return DescribedZone(name, min(changes)[2], [(at, offset) for at, offset, _ in changes])

    def _changes(self, part: Component) -> Iterator[tuple[datetime, timedelta, timedelta]]:
        """The changes of a part of a zone: the UTC time, the offset from then on, and the one before. Raises ValueError."""
        found = list(part.properties(self._limits.most_line_chars))
        given = {each.name: each.value for each in found}
        if not {"DTSTART", "TZOFFSETFROM", "TZOFFSETTO"} <= given.keys():
            raise ValueError(part.name)
        old, new = _offset(given["TZOFFSETFROM"]), _offset(given["TZOFFSETTO"])
        first = read_moment(given["DTSTART"], UTC).wall
        dates = [first, *(wall for each in found if each.name == "RDATE" for wall in _dates(each))]
        if "RRULE" in given:
            dates += self._recurrences(given["RRULE"], first, timezone(old))
        return ((wall - old, new, old) for wall in dates)

    def _recurrences(self, rule: str, first: datetime, before: tzinfo) -> Iterator[datetime]:
        """The changes by rule that matter. A rule that has ended may have made the last one, so its last years count, too."""
        read = read_rule(rule, before)
        opens, closes = self._stretch
        if read.until is not None:
            opens = min(opens, read.until - 2 * ONE_YEAR)
        allowance = Allowance(self._limits.most_steps_a_series, self._allowance)
        return walk(read, first, opens, closes, allowance)


def named_zone(name: str) -> ZoneInfo | None:
    """The zone of the tz database with that name, or None."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        # A folder of zones such as Europe is no zone: that is where the OSError comes from.
        return None


def _windows(name: str) -> str:
    from tzlocal.windows_tz import win_tz

    return win_tz.get(name, "")


def _tzid(component: Component, limits: Limits) -> str:
    try:
        return next((each.value for each in component.properties(limits.most_line_chars)), "")
    except ValueError:
        return ""


def _dates(given: Property) -> list[datetime]:
    return [read_moment(text.partition("/")[0], UTC).wall for text in given.value.split(",")]


def _offset(text: str) -> timedelta:
    match = OFFSET.fullmatch(text.strip())
    if match is None:
        raise ValueError(text[:40])
    sign, hours, minutes, seconds = match.groups(default="0")
    offset = timedelta(hours=int(hours), minutes=int(minutes), seconds=int(seconds))
    if offset >= timedelta(days=1):
        raise ValueError(text[:40])
    return -offset if sign == "-" else offset
