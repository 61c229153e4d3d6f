"""Plays a script against a clock that the script moves. No network; the same house as everywhere else."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.channels.dialogue import Line, Write
from bot.channels.phone import Phone
from bot.channels.script import At, Crash, Edit, Here, Link, Say, ScriptError, Send, Step, Tap, Weather, read_step
from bot.heard import Edited, Heard, Located, Said, SentFile, Tapped
from bot.house import House
from bot.outside.calendars.fetching import NOTHING_KNOWN, Fetched, NotModified, Validators
from bot.outside.faults import CalendarUnavailable, Fault
from bot.outside.forecast import ForecastFile
from bot.rounds.pace import UNLIMITED, Pace
from bot.rounds.postman import Postman

ADDRESS = "rehearsal:me"
FIRST_MOMENT = datetime(2026, 3, 2, 8)
"""Local time at which a script starts that does not begin with ``at``: a Monday morning."""


class Clock:
    """Shows what it was set to."""

    def __init__(self) -> None:
        self.now = datetime(2026, 1, 1, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now


class ScriptedForecasts:
    """Gives the forecast of the file that the script named last; with none it cannot be reached."""

    def __init__(self) -> None:
        self.path: Path | None = None

    def fetch(self, latitude: float, longitude: float) -> str:
        """What the file holds. Raises ForecastUnavailable."""
        return ForecastFile(self.path).fetch(latitude, longitude)


class ScriptedLinks:
    """Gives calendars from the files that the script named for their links; those of no other link can be reached."""

    def __init__(self) -> None:
        self.paths: dict[str, Path | None] = {}

    def fetch(self, link: str, known: Validators = NOTHING_KNOWN) -> Fetched | NotModified:
        """What the file holds; each content is a version of its own. Raises CalendarUnavailable."""
        path = self.paths.get(link)
        if path is None:
            raise CalendarUnavailable(Fault.NOT_REACHED)
        content = path.read_bytes()
        version = Validators(etag=f'"{sha256(content).hexdigest()}"')
        return NotModified() if known == version else Fetched(content, version)


@dataclass(frozen=True, slots=True)
class Beyond:
    """What lies beyond the bot, as the script makes it."""

    forecasts: ScriptedForecasts
    links: ScriptedLinks


OpenHouse = Callable[[Clock, Beyond], House]


@dataclass(slots=True)
class _Latest:
    """The person's latest message, which ``edit`` edits."""

    message_key: str | None = None


class Rehearsal:
    """One script's play.

    ``write`` takes every line as it is said; ``open_house`` starts the bot on the script's clock, weather and links.
    """

    def __init__(self, open_house: OpenHouse, zone: str, write: Write, files: Path | None = None) -> None:
        self._open_house = open_house
        self._first_zone = zone
        self._write = write
        self._clock = Clock()
        self._beyond = Beyond(ScriptedForecasts(), ScriptedLinks())
        self._phone = Phone(self._local_now, write, files)
        self._run = secrets.token_hex(4)
        self._count = 0
        self._latest = _Latest()
        self._started = False
        self._house = open_house(self._clock, self._beyond)

    def close(self) -> None:
        """Closes the database."""
        self._house.database.close()

    async def play(self, script: Path) -> None:
        """Plays every line in order. Raises ScriptError at the first that cannot be played."""
        for number, line in enumerate(script.read_text("utf-8").splitlines(), 1):
            step = read_step(number, line, script.parent)
            if step is None:
                continue
            try:
                await self._do(step)
            except _Impossible as fault:
                raise ScriptError(number, line.strip(), str(fault)) from fault

    async def _do(self, step: Step) -> None:
        if isinstance(step, At):
            await self._move_to(step.when)
            return
        if not self._started:
            await self._move_to(FIRST_MOMENT)
        if isinstance(step, Weather):
            self._beyond.forecasts.path = step.path
        elif isinstance(step, Link):
            self._beyond.links.paths[step.link] = step.path
        elif isinstance(step, Crash):
            self._house.database.close()
            self._house = self._open_house(self._clock, self._beyond)
        else:
            heard, line = self._heard(step)
            self._write(line)
            self._house.engine.receive(heard)
        await self._settle()

    async def _move_to(self, wall: datetime) -> None:
        """Moves the clock; all that falls due on the way happens at its own time."""
        target = wall.replace(tzinfo=ZoneInfo(self._zone())).astimezone(UTC)
        if not self._started:
            self._start(target)
        while (due := self._next_due()) is not None and due <= target:
            self._clock.now = max(due, self._clock.now)
            await self._settle()
        self._clock.now = target
        await self._settle()

    def _start(self, moment: datetime) -> None:
        self._started = True
        self._clock.now = moment
        if self._house.database.people.find(ADDRESS) is None:
            self._house.door.admit(ADDRESS, moment)

    def _next_due(self) -> datetime | None:
        """When something falls due next: a round, or a parcel that waits."""
        parcels = self._house.database.outbox.next_due(self._clock.now)
        return min((each for each in (self._house.database.rounds.next_due(), parcels) if each is not None), default=None)

    async def _settle(self) -> None:
        """Does what is due at this moment and carries what is owed."""
        postman = Postman(self._house.database.outbox, self._phone, self._clock, Pace(UNLIMITED, UNLIMITED), fill=self._house.studio.fill)
        await postman.deliver_due()
        await self._house.alarm.tick()
        await postman.deliver_due()

    def _heard(self, step: Step) -> tuple[Heard, Line]:
        """What the house hears of a person's step, and how it reads in the dialogue."""
        key = self._new_key()
        now = self._local_now()
        if isinstance(step, Say):
            self._latest.message_key = key
            return Said(ADDRESS, key, key, step.text), Line(now, "person", "message", step.text)
        if isinstance(step, Edit):
            if self._latest.message_key is None:
                raise _Impossible("there is no message to edit")
            return Edited(ADDRESS, key, self._latest.message_key, step.text), Line(now, "person", "edit", step.text)
        if isinstance(step, Tap):
            data = self._phone.button(step.label)
            if data is None:
                raise _Impossible("no message has that button")
            return Tapped(ADDRESS, key, data), Line(now, "person", "tap", step.label)
        if isinstance(step, Here):
            where = f"{step.latitude} {step.longitude}"
            return Located(ADDRESS, key, step.latitude, step.longitude), Line(now, "person", "message", where)
        if isinstance(step, Send):
            self._latest.message_key = key
            line = Line(now, "person", "file", "", file=step.path.name)
            return SentFile(ADDRESS, key, key, step.path.name, step.path.read_bytes()), line
        raise _Impossible("this is nothing a person says")

    def _new_key(self) -> str:
        self._count += 1
        return f"rehearsal:{self._run}:{self._count}"

    def _zone(self) -> str:
        person = self._house.database.people.find(ADDRESS)
        return person.zone if person else self._first_zone

    def _local_now(self) -> datetime:
        return self._clock.now.astimezone(ZoneInfo(self._zone()))


class _Impossible(Exception):
    """A step that makes no sense here."""
