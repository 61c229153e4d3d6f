"""A stage for whole conversations: the real engine and a real database, a clock that the test sets, and no channel."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from zlib import crc32
from zoneinfo import ZoneInfo

from sqlalchemy import event
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.pool import ConnectionPoolEntry

from bot.assemble import assemble
from bot.heard import Edited, Heard, Located, Said, SentFile, Tapped, button_data
from bot.house import House
from bot.outside.calendars.fetching import NOTHING_KNOWN, Fetched, NotModified, Validators
from bot.outside.faults import CalendarUnavailable, Fault, ForecastUnavailable
from bot.outside.geocoding import NoGeocoding
from bot.settings import Settings, sample_settings
from storage.connections import Connections
from storage.database import Database
from storage.desk import Desk
from storage.kind import Kind
from storage.records import Parcel
from tests.storage.given import still_owed

ME = "stage:me"


@cache
def _made_once() -> list[bytes]:
    return []


def empty_database(folder: Path) -> bytes:
    """The bytes of a database with all tables and no rows, migrated once for all stages."""
    made = _made_once()
    if not made:
        path = folder / "template.sqlite"
        Database(f"sqlite:///{path}").close()
        made.append(path.read_bytes())
    return made[0]


@dataclass(frozen=True, slots=True)
class Answer:
    """What the bot owed after one thing was heard, joined when it was more than one message."""

    parcels: tuple[Parcel, ...]

    @property
    def text(self) -> str:
        return "\n\n".join(parcel.text for parcel in self.parcels)

    @property
    def lines(self) -> list[str]:
        return self.text.split("\n")

    @property
    def labels(self) -> list[str]:
        return [button.label for parcel in self.parcels for row in parcel.buttons for button in row]


class Skies:
    """A forecast source that gives what the test put there, and counts how often it was asked."""

    def __init__(self) -> None:
        self.payload: str | None = None
        self.asked = 0

    def fetch(self, latitude: float, longitude: float) -> str:
        self.asked += 1
        if self.payload is None:
            raise ForecastUnavailable(Fault.NOT_REACHED)
        return self.payload


class Links:
    """Calendars by link, as the test put them there; each content is a version of its own."""

    def __init__(self) -> None:
        self.content: dict[str, bytes | Fault] = {}
        self.asked: list[Validators] = []

    def fetch(self, link: str, known: Validators = NOTHING_KNOWN) -> Fetched | NotModified:
        self.asked.append(known)
        found = self.content.get(link, Fault.NOT_REACHED)
        if isinstance(found, Fault):
            raise CalendarUnavailable(found)
        version = Validators(etag=f'"{crc32(found)}"')
        return NotModified() if known == version else Fetched(found, version)


def unhurried(kind: Kind) -> Connections:
    """Connections that do not wait until the disk has what they wrote: on a stage no power is ever lost."""

    def prepare(connection: DBAPIConnection, _entry: ConnectionPoolEntry) -> None:
        cursor = connection.cursor()
        cursor.execute("PRAGMA synchronous = OFF")
        cursor.close()

    if not kind.claims.shared:
        event.listen(kind.engine, "connect", prepare)
    return Connections(kind)


class Stage:
    """One person and the bot. Times are the person's local times."""

    def __init__(
        self, folder: Path, settings: Settings | None = None, at: str = "2026-03-02 09:00", me: str = ME, url: str | None = None
    ) -> None:
        """``url`` names a database without rows; by default there is a file in ``folder``, which stages may share."""
        self.path = folder / "stage.sqlite"
        self.url = url or f"sqlite:///{self.path}"
        if url is None and not self.path.exists():
            self.path.write_bytes(empty_database(folder))
        self.me = me
        self.settings = settings or sample_settings()
        self.skies = Skies()
        self.links = Links()
        self.zone = ZoneInfo(self.settings.person.zone)
        self.now = datetime.fromisoformat(at).replace(tzinfo=self.zone).astimezone(UTC)
        self.house = self._open()
        if self.house.database.people.find(me) is None:
            self.house.door.admit(me, self.now)
        self._count = 0
        self._seen = 0
        self._latest = ""

    def _open(self) -> House:
        return assemble(
            self.settings, Database(self.url, unhurried), lambda address: True, lambda: self.now, self.skies, NoGeocoding(), self.links
        )

    def crash(self) -> None:
        """The memory is lost; the database stays."""
        self.house.database.close()
        self.house = self._open()

    def close(self) -> None:
        self.house.database.close()

    @property
    def person_id(self) -> int:
        person = self.house.database.people.find(self.me)
        assert person is not None
        return person.id

    def at(self, when: str) -> Answer:
        """Moves the clock; what falls due on the way happens at its own time. Gives all that was said on the way."""
        target = datetime.fromisoformat(when).replace(tzinfo=self.zone).astimezone(UTC)
        while (due := self.house.database.rounds.next_due()) is not None and due <= target:
            self.now = max(due, self.now)
            asyncio.run(self.house.alarm.tick())
        self.now = target
        return self._owed()

    def jump(self, when: str) -> None:
        """Moves the clock as if nothing had run in between."""
        self.now = datetime.fromisoformat(when).replace(tzinfo=self.zone).astimezone(UTC)

    def tick(self) -> Answer:
        """Does what is due now."""
        asyncio.run(self.house.alarm.tick())
        return self._owed()

    def say(self, text: str, replies_to: str | None = None) -> Answer:
        key = self._key()
        self._latest = key
        return self.hear(Said(self.me, key, key, text, replies_to))

    def edit(self, text: str) -> Answer:
        """Edits the latest message said."""
        return self.hear(Edited(self.me, self._key(), self._latest, text))

    def here(self, latitude: float, longitude: float) -> Answer:
        return self.hear(Located(self.me, self._key(), latitude, longitude))

    def send(self, name: str, content: bytes) -> Answer:
        """Sends a file."""
        key = self._key()
        return self.hear(SentFile(self.me, key, key, name, content))

    def tap(self, label: str) -> Answer:
        """Taps the button with that label in the newest message that has one."""
        return self.hear_tap(self.button(label))

    def hear_tap(self, data: str) -> Answer:
        """Taps a button by what it carries, however old it is."""
        return self.hear(Tapped(self.me, self._key(), data))

    def button(self, label: str) -> str:
        for parcel in reversed(self.parcels()):
            for row, buttons in enumerate(parcel.buttons):
                for place, button in enumerate(buttons):
                    if button.label == label:
                        return button_data(parcel.id, row, place)
        raise AssertionError(f"no button {label!r} in {[parcel.text for parcel in self.parcels()][-2:]}")

    def hear(self, heard: Heard) -> Answer:
        self.house.engine.receive(heard)
        return self._owed()

    def look(self, read: Callable[[Desk], object]) -> object:
        """Reads something from the person's desk."""
        with self.house.database.desk(self.person_id, self.now) as desk:
            return read(desk)

    def parcels(self) -> tuple[Parcel, ...]:
        """Everything ever owed on this stage, oldest first."""
        return still_owed(self.house.database)

    def _owed(self) -> Answer:
        fresh = still_owed(self.house.database, self._seen)
        self._seen = fresh[-1].id if fresh else self._seen
        return Answer(fresh)

    def _key(self) -> str:
        self._count += 1
        return f"{self.me}:{self._count}"
