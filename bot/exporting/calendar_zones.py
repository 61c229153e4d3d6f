"""What the clocks of a zone show, for programs that do not know its name. Source: RFC 5545, section 3.6.5."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from bot.exporting.calendar_lines import wall
from bot.rules.local_time import ONE_DAY, ONE_SECOND

YEARS_AHEAD = 20


def zone_lines(zone: str, since: datetime, now: datetime) -> Iterator[str]:
    """The zone's offsets from the year before ``since`` to twenty years after ``now``, each with all the moments it began at."""
    first, last = datetime(since.year - 1, 1, 1, tzinfo=UTC), datetime(max(since, now).year + YEARS_AHEAD, 1, 1, tzinfo=UTC)
    observed: dict[tuple[str, str, timedelta, timedelta], list[datetime]] = {}
    for at in (first, *_changes(ZoneInfo(zone), first, last)):
        before, after = ((at + step).astimezone(ZoneInfo(zone)) for step in (-ONE_SECOND, timedelta(0)))
        kind = "DAYLIGHT" if after.dst() else "STANDARD"
        # An offset begins when the clocks still show the time of the one before.
        onset = at.replace(tzinfo=None) + _offset(before)
        observed.setdefault((kind, after.tzname() or zone, _offset(before), _offset(after)), []).append(onset)
    yield from ("BEGIN:VTIMEZONE", f"TZID:{zone}")
    for (kind, name, before_, after_), onsets in observed.items():
        yield from (f"BEGIN:{kind}", f"DTSTART:{wall(onsets[0])}", f"TZNAME:{name}")
        yield from (f"TZOFFSETFROM:{_signed(before_)}", f"TZOFFSETTO:{_signed(after_)}")
        if onsets[1:]:
            yield f"RDATE:{','.join(map(wall, onsets[1:]))}"
        yield f"END:{kind}"
    yield "END:VTIMEZONE"


def _changes(zone: ZoneInfo, first: datetime, last: datetime) -> Iterator[datetime]:
    """The instants between at which the clocks of ``zone`` are changed, to the second. Two on one day are one."""
    day = first
    while day < last:
        if _offset(day.astimezone(zone)) != _offset((day + ONE_DAY).astimezone(zone)):
            yield _change_within(zone, day, day + ONE_DAY)
        day += ONE_DAY


def _change_within(zone: ZoneInfo, before: datetime, after: datetime) -> datetime:
    while after - before > ONE_SECOND:
        middle = before + (after - before) // 2 // ONE_SECOND * ONE_SECOND
        if _offset(middle.astimezone(zone)) == _offset(before.astimezone(zone)):
            before = middle
        else:
            after = middle
    return after


def _offset(shown: datetime) -> timedelta:
    return shown.utcoffset() or timedelta(0)


def _signed(offset: timedelta) -> str:
    """ "+0100"; with seconds only where there are some."""
    seconds = int(abs(offset).total_seconds())
    sign = "-" if offset < timedelta(0) else "+"
    return f"{sign}{seconds // 3600:02d}{seconds // 60 % 60:02d}" + (f"{seconds % 60:02d}" if seconds % 60 else "")
