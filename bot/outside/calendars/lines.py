"""The bytes of a calendar -> its content lines, in the components that hold them. Source: RFC 5545, sections 3.1 and 3.4.

Anything is taken: lines that are cut off, components that never end or were
never begun. What is of no use here (attendees, alarms, pictures) is left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from bot.outside.calendars.limits import Limits
from bot.rules.tame_text import tame

CALENDAR, EVENT, ZONE, STANDARD, DAYLIGHT = "VCALENDAR", "VEVENT", "VTIMEZONE", "STANDARD", "DAYLIGHT"
HOLDS = {"": {CALENDAR, EVENT, ZONE}, CALENDAR: {EVENT, ZONE}, ZONE: {STANDARD, DAYLIGHT}}
CHANGE = frozenset({"DTSTART", "TZOFFSETFROM", "TZOFFSETTO", "RRULE", "RDATE"})
SAYS = {
    CALENDAR: frozenset({"X-WR-CALNAME", "NAME", "X-WR-TIMEZONE", "METHOD"}),
    EVENT: frozenset("UID SEQUENCE RECURRENCE-ID DTSTART DTEND DURATION RRULE RDATE EXDATE SUMMARY LOCATION STATUS TRANSP".split()),
    ZONE: frozenset({"TZID"}),
    STANDARD: CHANGE,
    DAYLIGHT: CHANGE,
}
LONGEST_NAME = 14

FOLD = re.compile(rb"\r?\n[ \t]")
LINE = re.compile(r"[^\r\n]+")
PARAMETER = r';([A-Za-z0-9-]+)=("[^"]*"|[^",;:]*)((?:,(?:"[^"]*"|[^",;:]*))*)'
CONTENT_LINE = re.compile(rf"([A-Za-z0-9-]+)((?:{PARAMETER})*):(.*)")
ESCAPED = re.compile(r"\\(.)")
BLANK = re.compile(r"[\s\x00-\x1f\x7f]+")


@dataclass(frozen=True, slots=True)
class Property:
    """One content line. Names are upper case; of a parameter with several values the first is kept."""

    name: str
    parameters: dict[str, str]
    value: str


@dataclass(slots=True)
class Component:
    """A calendar, event, zone or part of a zone: the lines of it that matter, as they were written, and what it holds."""

    name: str
    lines: list[str] = field(default_factory=list)
    components: list[Component] = field(default_factory=list)

    def named(self, name: str) -> list[Component]:
        """The components of that name that it holds itself."""
        return [component for component in self.components if component.name == name]

    def properties(self, most_chars: int) -> Iterator[Property]:
        """Its properties that say anything. Raises ValueError at one that is broken or longer than ``most_chars``."""
        for line in self.lines:
            match = CONTENT_LINE.fullmatch(line) if len(line) <= most_chars else None
            if match is None:
                raise ValueError(line[:40])
            parameters = {name.upper(): value.strip('" ') for name, value, _ in re.findall(PARAMETER, match[2])}
            if value := match[match.re.groups].strip():
                yield Property(match[1].upper(), parameters, value)


class CalendarFile:
    """The calendars in a file, whole or cut off. Events that are in no calendar make one."""

    def __init__(self, content: bytes, limits: Limits) -> None:
        self._limits = limits
        self._count = 0
        root = Component("")
        self._open = [root]
        # Of what is left out only the names are remembered, to know where it ends.
        self._left_out: list[str] = []
        for line in _content_lines(content):
            self._take(line)
        calendars = root.named(CALENDAR)
        self.calendars = [*calendars, root] if root.named(EVENT) else calendars

    @property
    def cut_short(self) -> bool:
        """Whether there was more in it than is taken."""
        return self._count > self._limits.most_components

    def _take(self, line: str) -> None:
        name = line[: LONGEST_NAME + 1].partition(":")[0].partition(";")[0].strip().upper()
        if name == "BEGIN":
            self._begin(line.partition(":")[2].strip().upper())
        elif name == "END":
            self._end(line.partition(":")[2].strip().upper())
        elif not self._left_out and name in SAYS.get(self._open[-1].name, ()):
            self._open[-1].lines.append(line)

    def _begin(self, name: str) -> None:
        depth = self._depth_of_holder(name)
        # A calendar in an event, or an event in an alarm, is one whose end was lost; an alarm in an event is an alarm.
        if depth is None:
            self._left_out.append(name)
            return
        self._count += 1
        del self._open[depth + 1 :]
        self._left_out = ["more than is taken"] if self.cut_short else []
        component = Component(name)
        self._open.append(component)
        if not self.cut_short:
            self._open[depth].components.append(component)

    def _depth_of_holder(self, name: str) -> int | None:
        return next((depth for depth in reversed(range(len(self._open))) if name in HOLDS.get(self._open[depth].name, ())), None)

    def _end(self, name: str) -> None:
        if self._left_out and self._left_out[-1] == name:
            self._left_out.pop()
            return
        depth = next((depth for depth in reversed(range(1, len(self._open))) if self._open[depth].name == name), None)
        if depth is not None:
            self._left_out.clear()
            del self._open[depth:]


def _content_lines(content: bytes) -> Iterable[str]:
    """The lines, unfolded while they are bytes: some programs fold in the middle of a letter."""
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        content = content.decode("utf-16", "replace").encode()
    unfolded = FOLD.sub(b"", content.removeprefix(b"\xef\xbb\xbf"))
    try:
        text = unfolded.decode("utf-8")
    except UnicodeDecodeError:
        text = unfolded.decode("latin-1")
    return (match[0] for match in LINE.finditer(text))


def plain_text(value: str, most_chars: int) -> str:
    """A TEXT value as one line for people, tamed, without its escapes and at most ``most_chars`` long. RFC 5545, section 3.3.11."""
    text = ESCAPED.sub(lambda match: " " if match[1] in "nN" else match[1], value[: 4 * most_chars])
    text = BLANK.sub(" ", tame(text)).strip()
    return text if len(text) <= most_chars else text[: most_chars - 1].rstrip() + "…"
