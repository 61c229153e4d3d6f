"""A component of a calendar -> one event, with its times still on its own clock. Source: RFC 5545, section 3.6.1."""

from __future__ import annotations

import hashlib
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, tzinfo

from bot.outside.calendars.limits import Limits
from bot.outside.calendars.lines import Component, Property, plain_text
from bot.outside.calendars.moments import LONGEST, Length, Moment, between, instant, read_length, read_moment
from bot.outside.calendars.rules import Rule, read_rule

MOST_TITLE_CHARS = 200
MOST_UID_CHARS = 255


@dataclass(frozen=True, slots=True)
class Clock:
    """Whose clocks a calendar's times are on.

    ``floating`` is for times that name no zone; ``utc`` for those in UTC,
    which some calendars mean to follow a zone that they name once for all.
    """

    find: Callable[[str], tzinfo | None]
    floating: tzinfo
    utc: tzinfo


@dataclass(frozen=True, slots=True)
class Event:
    """An event, or one changed recurrence of it.

    ``zone`` is whose clock all its times are on, or None if it takes whole
    days. ``changes`` is the time at which the recurrence would have started
    that it stands in for, and, if ``from_then_on``, for all later ones.
    """

    uid: str
    sequence: int
    title: str
    place: str
    cancelled: bool
    busy: bool
    starts: Moment
    length: Length
    rules: tuple[Rule, ...] = ()
    more: tuple[tuple[datetime, Length | None], ...] = ()
    except_at: frozenset[datetime] = frozenset()
    except_days: frozenset[date] = frozenset()
    changes: Moment | None = None
    from_then_on: bool = False

    @property
    def zone(self) -> tzinfo | None:
        """Whose clock it follows; None for whole days."""
        return self.starts.zone


def read_event(component: Component, clock: Clock, limits: Limits) -> Event:
    """The event that ``component`` describes. Raises ValueError if a line that matters cannot be read."""
    return _Reader(component, clock, limits).event()


class _Reader:
    def __init__(self, component: Component, clock: Clock, limits: Limits) -> None:
        self._clock = clock
        self._found: dict[str, list[Property]] = defaultdict(list)
        for each in component.properties(limits.most_line_chars):
            self._found[each.name].append(each)

    def event(self) -> Event:
        starts, length = self._span()
        changed = self._first("RECURRENCE-ID")
        changes = self._moment(changed, changed.value) if changed else None
        if changes is not None and abs(starts.wall - changes.wall) > LONGEST:
            raise ValueError("moved by more than a century")
        excepted = self._moments("EXDATE")
        return Event(
            uid=self._uid(),
            sequence=self._sequence(),
            title=self._text("SUMMARY"),
            place=self._text("LOCATION"),
            cancelled=self._word("STATUS") == "CANCELLED",
            busy=self._word("TRANSP") != "TRANSPARENT",
            starts=starts,
            length=length,
            rules=tuple(dict.fromkeys(read_rule(each.value, starts.zone) for each in self._found["RRULE"])),
            more=tuple(self._more(starts.zone)),
            except_at=frozenset(each.wall_in(starts.zone) for each in excepted if not each.is_day or starts.is_day),
            except_days=frozenset(each.wall.date() for each in excepted if each.is_day or starts.is_day),
            changes=changes,
            from_then_on=changed is not None and changed.parameters.get("RANGE", "").upper() == "THISANDFUTURE",
        )

    def _span(self) -> tuple[Moment, Length]:
        """Start and length. An end before the start is taken for the two having been swapped."""
        first, last = self._first("DTSTART"), self._first("DTEND")
        if first is None:
            raise ValueError("DTSTART")
        starts = self._moment(first, first.value)
        if last is None:
            return self._span_by_length(starts)
        ends = self._moment(last, last.value)
        zone = starts.zone or ends.zone
        if zone is not None and starts.zone is not ends.zone and (starts.is_day or ends.is_day):
            starts, ends = Moment(starts.wall, zone), Moment(ends.wall, zone)
        swapped = _after(starts, ends)
        return (ends, between(ends, starts)) if swapped else (starts, between(starts, ends))

    def _span_by_length(self, starts: Moment) -> tuple[Moment, Length]:
        given = self._first("DURATION")
        if given is None:
            return starts, Length()
        length = read_length(given.value)
        if starts.is_day and length.exact:
            starts = Moment(starts.wall, self._clock.floating)
        if length.on_clock + length.exact >= Length().exact:
            return starts, length
        return Moment(starts.wall + length.on_clock + length.exact, starts.zone), Length(-length.on_clock, -length.exact)

    def _more(self, zone: tzinfo | None) -> list[tuple[datetime, Length | None]]:
        """The further starts on the event's clock; a period brings its own length."""
        found: list[tuple[datetime, Length | None]] = []
        for each in self._found["RDATE"]:
            for text in each.value.split(","):
                first, slash, last = text.partition("/")
                starts = self._moment(each, first)
                found.append((starts.wall_in(zone), self._length(each, starts, last) if slash else None))
        return found

    def _length(self, given: Property, starts: Moment, text: str) -> Length:
        """The length of a period, which gives it or its end."""
        if text.strip()[:1] in "Pp+":
            return read_length(text)
        ends = self._moment(given, text)
        if _after(starts, ends):
            raise ValueError(text[:40])
        return between(starts, ends)

    def _moments(self, name: str) -> list[Moment]:
        return [self._moment(each, text) for each in self._found[name] for text in each.value.split(",") if text.strip()]

    def _moment(self, given: Property, text: str) -> Moment:
        name = given.parameters.get("TZID")
        zone = self._clock.find(name) if name else None
        moment = read_moment(text, zone or self._clock.floating)
        if text.strip()[-1:] in "Zz" and moment.zone is not None:
            return Moment(moment.wall_in(self._clock.utc), self._clock.utc)
        return moment

    def _uid(self) -> str:
        """Its UID; one without gets a name by what it says, so that it keeps it when it is read again."""
        given = self._first("UID")
        uid = plain_text(given.value, MOST_UID_CHARS + 1) if given else ""
        if uid and len(uid) <= MOST_UID_CHARS:
            return uid
        said = [given.value if given else "", *(each.value for name in ("DTSTART", "SUMMARY") for each in self._found[name])]
        return "unnamed-" + hashlib.sha256("\n".join(said).encode()).hexdigest()[:32]

    def _sequence(self) -> int:
        text = self._word("SEQUENCE")
        return int(text) if text.isascii() and text.isdecimal() and len(text) <= 9 else -1

    def _word(self, name: str) -> str:
        given = self._first(name)
        return given.value.upper() if given else ""

    def _text(self, name: str) -> str:
        given = self._first(name)
        return plain_text(given.value, MOST_TITLE_CHARS) if given else ""

    def _first(self, name: str) -> Property | None:
        return self._found[name][0] if self._found[name] else None


def _after(one: Moment, other: Moment) -> bool:
    if one.zone is other.zone or one.zone is None or other.zone is None:
        return one.wall > other.wall
    return instant(one.wall, one.zone) > instant(other.wall, other.zone)
