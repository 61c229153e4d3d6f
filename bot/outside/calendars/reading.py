"""The bytes of an iCalendar file -> every single time that its events take place within some days.

A rule is of no use to whoever keeps a week: they ask what is on a day, what
changed since yesterday, and what they once said about this event or that one
time of it. So rules are walked here, within the days that are wanted, and what
comes out are single times under names that outlast a refresh: the event's UID,
and the start its rule gave it (its RECURRENCE-ID), which stays the same when
the one time is moved. What was said of a whole series goes by the UID alone.

Whatever is in the file, the work is bounded, what can be read is kept, and
what cannot is counted. Source: RFC 5545.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, date, tzinfo
from itertools import islice
from zoneinfo import ZoneInfo

from bot.outside.calendars.events import Clock, Event, read_event
from bot.outside.calendars.limits import LIMITS, Allowance, Limits, TooMuchWork
from bot.outside.calendars.lines import EVENT, ZONE, CalendarFile, Component, plain_text
from bot.outside.calendars.progress import Progress
from bot.outside.calendars.series import Stretch, times_of
from bot.outside.calendars.zones import Zones, named_zone
from bot.outside.faults import CalendarUnavailable, Fault
from bot.rules.calendar_events import CalendarEvent, ReadCalendar, in_order
from bot.rules.local_time import day_bounds
from bot.rules.spans import Span

MOST_NAME_CHARS = 80


def read_calendar(
    content: bytes, zone: str, first_day: date, last_day: date, limits: Limits = LIMITS, progress: Progress | None = None
) -> ReadCalendar:
    """What ``content`` says of the days from ``first_day`` to ``last_day``, both included.

    Days, and times that name no zone, are those of ``zone``, an IANA name.
    Works for up to some seconds and touches nothing but ``progress``, which
    counts the events: call it in a thread where there may be many.
    Raises CalendarUnavailable if it is too large or no calendar.
    """
    if len(content) > limits.most_bytes:
        raise CalendarUnavailable(Fault.TOO_LARGE)
    file = CalendarFile(content, limits)
    if not file.calendars:
        raise CalendarUnavailable(Fault.NOT_A_CALENDAR)
    stretch = Stretch(Span(day_bounds(first_day, zone)[0], day_bounds(last_day, zone)[1]), zone)
    reading = _Reading(stretch, limits, file.cut_short, progress or Progress())
    for calendar in file.calendars:
        reading.take(calendar)
    return reading.result()


class _Reading:
    """What has been read so far, and what may still be."""

    def __init__(self, stretch: Stretch, limits: Limits, cut_short: bool, progress: Progress) -> None:
        self._progress = progress
        self._stretch = stretch
        self._limits = limits
        self._allowance = Allowance(limits.most_steps)
        self._name = ""
        self._events_left = limits.most_events
        self._found: dict[tuple[str, str], CalendarEvent] = {}
        self._unreadable = 0
        self._cut_short = cut_short

    def take(self, calendar: Component) -> None:
        """Adds what one calendar says. A file may hold several."""
        header = self._header(calendar)
        self._name = self._name or plain_text(header.get("X-WR-CALNAME") or header.get("NAME", ""), MOST_NAME_CHARS)
        events = self._events(calendar, header)
        series: defaultdict[str, list[Event]] = defaultdict(list)
        for event in events:
            series[event.uid].append(event)
        for same in series.values():
            self._expand(same)

    def result(self) -> ReadCalendar:
        """All that was read."""
        return ReadCalendar(self._name, in_order(self._found.values()), self._unreadable, self._cut_short)

    def _header(self, calendar: Component) -> dict[str, str]:
        """What holds for a calendar as a whole; a line that cannot be read says nothing."""
        found: dict[str, str] = {}
        for line in calendar.lines:
            with suppress(ValueError):
                found |= {each.name: each.value for each in Component(calendar.name, [line]).properties(self._limits.most_line_chars)}
        return found

    def _events(self, calendar: Component, header: dict[str, str]) -> Iterator[Event]:
        clock = self._clock(calendar, header)
        called_off = header.get("METHOD", "").upper() == "CANCEL"
        for component in self._within_limits(calendar.named(EVENT)):
            self._progress.events += 1
            try:
                event = read_event(component, clock, self._limits)
            except ValueError:
                self._unreadable += 1
                continue
            yield replace(event, cancelled=True) if called_off else event

    def _within_limits(self, components: list[Component]) -> list[Component]:
        taken = components[: self._events_left]
        self._events_left -= len(taken)
        self._progress.of += len(taken)
        self._cut_short = self._cut_short or len(taken) < len(components)
        return taken

    def _clock(self, calendar: Component, header: dict[str, str]) -> Clock:
        """Where a calendar names one zone for all (X-WR-TIMEZONE), its times in UTC follow that zone's clocks, too."""
        zones = Zones(calendar.named(ZONE), self._stretch.span.starts, self._stretch.span.ends, self._limits, self._allowance)
        named = header.get("X-WR-TIMEZONE")
        for_all: tzinfo | None = zones.find(named) if named else None
        return Clock(zones.find, for_all or named_zone(self._stretch.zone) or ZoneInfo("UTC"), for_all or UTC)

    def _expand(self, same: list[Event]) -> None:
        """Adds the times of the events of one UID. One that recurs too often to be kept stops where the limit is."""
        most = min(self._limits.most_instances_a_series, self._limits.most_instances - len(self._found))
        if most <= 0:
            self._cut_short = True
            return
        allowance = Allowance(self._limits.most_steps_a_series, self._allowance)
        try:
            times = times_of(same, self._stretch, allowance)
            for event in islice(times, most):
                self._found.setdefault(event.key, event)
            self._cut_short = self._cut_short or next(times, None) is not None
        except TooMuchWork:
            self._unreadable += 1
            self._cut_short = True
