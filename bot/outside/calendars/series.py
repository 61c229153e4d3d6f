"""The events of one UID -> the single times at which they take place. Source: RFC 5545, sections 3.8.4.4 and 3.8.5."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

from bot.outside.calendars.events import Event
from bot.outside.calendars.limits import Allowance
from bot.outside.calendars.moments import Length, Moment, instant
from bot.outside.calendars.walking import walk
from bot.rules.calendar_events import CalendarEvent
from bot.rules.local_time import ONE_DAY, day_bounds, local
from bot.rules.spans import Span

NO_TIME = timedelta()
# Making an event of a time takes about as long as that many steps of a rule.
STEPS_OF_AN_EVENT = 8


@dataclass(frozen=True, slots=True)
class Stretch:
    """Which times are wanted: those that touch ``span``, for a person in ``zone``, an IANA name."""

    span: Span
    zone: str

    def holds(self, event: CalendarEvent) -> bool:
        """Whether the event shares time with the span, or starts in it and takes no time."""
        if event.starts == event.ends:
            return self.span.starts <= event.starts < self.span.ends
        return event.starts < self.span.ends and self.span.starts < event.ends


def times_of(events: Sequence[Event], stretch: Stretch, allowance: Allowance) -> Iterator[CalendarEvent]:
    """Every time within ``stretch`` at which the events of one UID take place, in no order. Raises TooMuchWork."""
    core = max((event for event in events if event.changes is None), key=lambda event: event.sequence, default=None)
    changed = _changed(events, core)
    found = _Series(core, changed, stretch, allowance).times() if core else _alone(changed, stretch)
    return (event for event in found if stretch.holds(event))


def _changed(events: Sequence[Event], core: Event | None) -> dict[datetime, Event]:
    """The changed recurrences, by the start that they were given at first on the series' own clock; the newest of each."""
    found: dict[datetime, Event] = {}
    for event in sorted(events, key=lambda each: -each.sequence):
        if event.changes is not None:
            found.setdefault(event.changes.wall_in(core.zone if core else event.changes.zone), event)
    return found


def _alone(changed: Mapping[datetime, Event], stretch: Stretch) -> Iterator[CalendarEvent]:
    """Single recurrences of a series that the calendar does not hold: the person was asked to these alone."""
    for wall, event in changed.items():
        zone = event.changes.zone if event.changes else event.zone
        yield _time(event, event.starts.wall, event.length, _recurrence(Moment(wall, zone)), stretch)


class _Series:
    """An event, the recurrences that its rules and dates give it, and those that were changed."""

    def __init__(self, core: Event, changed: Mapping[datetime, Event], stretch: Stretch, allowance: Allowance) -> None:
        self._core = core
        self._stretch = stretch
        self._allowance = allowance
        self._changed = {wall: event for wall, event in changed.items() if not (self._is_excepted(wall) or self._is_stale(wall, event))}
        self._from_then_on = sorted(wall for wall, event in self._changed.items() if event.from_then_on)

    def times(self) -> Iterator[CalendarEvent]:
        """The times near the stretch, and every changed one, wherever it was moved from."""
        for wall, event in self._changed.items():
            yield _time(event, event.starts.wall, event.length, self._name(wall), self._stretch)
        lengths = dict(self._core.more)
        for wall in self._starts():
            if wall not in self._changed and not self._is_excepted(wall):
                self._allowance.spend(STEPS_OF_AN_EVENT)
                yield self._unchanged(wall, lengths.get(wall))

    def _starts(self) -> Iterator[datetime]:
        """The starts that the event's own date, its further dates and its rules give, each once."""
        first, rules = self._core.starts.wall, self._core.rules
        ends = [rule.until for rule in rules if rule.until is not None]
        seen = {wall for wall, _ in self._core.more}
        if not ends or max(ends) >= first:
            seen.add(first)
        yield from sorted(seen)
        opens, closes = self._reach() if rules else (first, first)
        for rule in rules:
            for wall in walk(rule, first, opens, closes, self._allowance):
                if wall not in seen:
                    seen.add(wall)
                    yield wall

    def _reach(self) -> tuple[datetime, datetime]:
        """From when to when a recurrence may start, on the series' own clock, to touch the stretch once it was moved."""
        lasting = [self._core, *(self._changed[wall] for wall in self._from_then_on)]
        lengths = [event.length.longest for event in lasting] + [length.longest for _, length in self._core.more if length]
        moves = [_moved_by(event) for event in lasting]
        opens, closes = (self._on_clock(at) for at in (self._stretch.span.starts, self._stretch.span.ends))
        return opens - max(lengths) - max(moves) - ONE_DAY, closes - min(moves) + ONE_DAY

    def _on_clock(self, at: datetime) -> datetime:
        zone = self._core.zone
        return (at.astimezone(zone) if zone else local(at, self._stretch.zone)).replace(tzinfo=None)

    def _unchanged(self, wall: datetime, own_length: Length | None) -> CalendarEvent:
        """A recurrence as the event describes it, or as the latest change does that holds from then on."""
        earlier = [at for at in self._from_then_on if at < wall]
        event = self._changed[earlier[-1]] if earlier else self._core
        here = Moment(wall, self._core.zone).wall_in(event.zone) + _moved_by(event)
        return _time(event, here, own_length or event.length, self._name(wall), self._stretch)

    def _is_excepted(self, wall: datetime) -> bool:
        return wall in self._core.except_at or wall.date() in self._core.except_days

    def _is_stale(self, wall: datetime, changed: Event) -> bool:
        """Whether the series was cut since: then the old rest of it, with a rule of its own, stays behind in some calendars."""
        core = self._core
        if not changed.rules or changed.sequence >= core.sequence or wall == core.starts.wall or wall in dict(core.more):
            return False
        end = wall + timedelta(seconds=1)
        return not any(wall in walk(rule, core.starts.wall, wall, end, self._allowance) for rule in core.rules)

    def _name(self, wall: datetime) -> str:
        recurs = self._core.rules or self._core.more or self._changed
        return _recurrence(Moment(wall, self._core.zone)) if recurs else ""


def _moved_by(event: Event) -> timedelta:
    """How far a changed recurrence was moved on its own clock."""
    return event.starts.wall - event.changes.wall_in(event.zone) if event.changes else NO_TIME


def _recurrence(moment: Moment) -> str:
    return f"{moment.wall:%Y%m%d}" if moment.zone is None else f"{instant(moment.wall, moment.zone):%Y%m%dT%H%M%SZ}"


def _time(event: Event, wall: datetime, length: Length, recurrence: str, stretch: Stretch) -> CalendarEvent:
    """One time of ``event``, from ``wall`` on its own clock."""
    bounds = _bounds(wall, length, event.zone) if event.zone else _whole_days(wall, length, stretch.zone)
    return CalendarEvent(
        uid=event.uid,
        recurrence=recurrence,
        title=event.title,
        starts=bounds.starts,
        ends=bounds.ends,
        all_day=event.zone is None,
        busy=event.busy,
        cancelled=event.cancelled,
        place=event.place,
    )


def _bounds(wall: datetime, length: Length, zone: tzinfo) -> Span:
    return Span(instant(wall, zone), length.end(wall, zone).astimezone(UTC))


def _whole_days(wall: datetime, length: Length, zone: str) -> Span:
    """From the first day to the last, which is the one before the end; at least a day, also where a calendar says none."""
    last = max(wall.date(), (wall + length.on_clock).date() - ONE_DAY)
    return Span(day_bounds(wall.date(), zone)[0], day_bounds(last, zone)[1])
