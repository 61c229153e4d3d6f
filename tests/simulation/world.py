"""The world around the program: what happens to it and to the people in it, whether it runs or not."""

from __future__ import annotations

import asyncio
from collections import Counter
from datetime import datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

from storage.records import Parcel
from tests.simulation.audit import Auditor
from tests.simulation.beginnings import MORNINGS, PLACES, planned, rates, settings_of
from tests.simulation.chat_service import ChatService
from tests.simulation.fate import Fate
from tests.simulation.ledger import Ledger
from tests.simulation.person import CLOCKED, Meant, Writer
from tests.simulation.skies import SimulatedSkies
from tests.simulation.story import Story
from tests.simulation.virtual_time import Agenda, Clock

HOUR, DAY = 3600.0, 86400.0
LAST_HOURS = 4 * HOUR
"""For how long all goes well at the end, so that what was owed can arrive."""


class World:
    """All that a seed decides, and the agenda of what happens. ``thorough`` plans a trouble of every kind for every kind of step."""

    def __init__(self, seed: int, folder: Path, template: bytes, *, thorough: bool = False) -> None:
        self.seed = seed
        draw = Random(f"{seed} world")
        zone, starts, self._clocks_change = draw.choice(PLACES)
        self.zone = ZoneInfo(zone)
        self.clock = Clock(starts + timedelta(minutes=draw.randrange(600)))
        self.agenda = Agenda(self.clock)
        self.story = Story(seed, self.zone, self.clock)
        self.service = ChatService(Random(f"{seed} service"), self.clock, repeats=draw.choice((0, 0.1)), disorder=draw.choice((0, 0.3)))
        self.fate = Fate(Random(f"{seed} fate"), self.clock, rates(draw), planned(draw) if thorough else {}, self.story.trouble)
        self.settings = settings_of(zone, draw.choice(MORNINGS))
        self.path = folder / "life.sqlite"
        for ending in ("", "-wal", "-shm"):
            self.path.with_name(self.path.name + ending).unlink(missing_ok=True)
        self.path.write_bytes(template)
        self.auditor = Auditor(self.path, self.service)
        self.skies = SimulatedSkies(Random(f"{seed} skies"), self.fate, self.service, self.clock)
        self.meant: dict[str, Meant] = {}
        self.sent: Counter[int] = Counter()
        self.days = draw.choice((1, 1, 1.5, 1.5, 2)) if draw.random() < 0.99 else 40
        chats = [11, 12][: draw.choice((1, 1, 1, 2))]
        numbers = [1000]
        self.writers = [Writer(chat, Random(f"{seed} person {chat}"), self.service, self._bring, self.meant, numbers) for chat in chats]
        self.ledgers = {chat: Ledger(self.zone, CLOCKED) for chat in chats}
        self.up: list[tuple[datetime, datetime]] = []
        self._known: dict[int, tuple[int, datetime]] = {}
        self._up_since: datetime | None = None
        self._hearing: list[tuple[Meant, Parcel]] = []
        self._failure: Exception | None = None
        self._stop: asyncio.Event | None = None
        self._over = False
        self._draw = draw
        self._fill_agenda()

    def _fill_agenda(self) -> None:
        ends = self.days * DAY
        for writer in self.writers:
            each_day = 1 if self.days > 30 else self._draw.choice((3, 5, 8))
            for _ in range(int(each_day * self.days)):
                self.agenda.at(self._draw.uniform(0, ends), lambda writer=writer: self._act(writer))  # type: ignore[misc]
        self._work_through_the_change()
        for happen in (self._lose_line, self._sleep_long, self._set_clock, self._stop_politely, self._block):
            for _ in range(self._draw.choice((0, 0, 1, 2))):
                self.agenda.at(self._draw.uniform(0, ends), happen)
        self.agenda.at(ends, self._calm_down)
        self.agenda.at(ends + LAST_HOURS, self._end)

    def _work_through_the_change(self) -> None:
        """A shift that begins shortly before or after the clocks change."""
        if self._clocks_change is None:
            return
        begins = (self._clocks_change - self.clock()).total_seconds() + self._draw.uniform(-0.25, 1) * HOUR
        writer = self.writers[0]
        self.agenda.at(begins, lambda: self._act(writer, "in"))
        self.agenda.at(begins + self._draw.uniform(0.5, 4) * HOUR, lambda: self._act(writer, "out"))

    def _act(self, writer: Writer, kind: str | None = None) -> None:
        if writer.chat not in self.service.blocked:
            writer.act(kind)
            self.sent[writer.chat] += 1

    def _bring(self, update: dict[str, Any]) -> None:
        """On its way an update may be late, so that a later one comes before it; none comes after the end."""
        if self._draw.random() < 0.1 and not self.fate.is_calm:
            self.agenda.at(self.clock.seconds + self._draw.choice((1.0, 60.0, 2 * HOUR)), lambda: self.service.bring(update))
        else:
            self.service.bring(update)

    def _lose_line(self) -> None:
        self.story.remark("no network")
        self.service.line_is_down = True
        self.agenda.at(self.clock.seconds + self._draw.choice((60.0, 60.0, 600.0, 900.0, HOUR)), self._find_line)

    def _find_line(self) -> None:
        self.service.line_is_down = False

    def _sleep_long(self) -> None:
        """The computer is suspended: the wall clock goes on, the monotonic one stands still."""
        self._move_clock(timedelta(minutes=self._draw.randint(20, 600)), "suspended")

    def _set_clock(self) -> None:
        minutes = self._draw.choice((-1500, -180, -61, -3, 2, 59, 240, 1500, 60 * 24 * 30))
        step = timedelta(minutes=minutes)
        self._move_clock(step, "the clock is set")
        self.agenda.at(self.clock.seconds + self._draw.choice((300.0, 5 * HOUR)), lambda: self._move_clock(-step, "the clock is set back"))

    def _move_clock(self, step: timedelta, what: str) -> None:
        self._fall()
        self.clock.ahead += step
        self.story.remark(f"{what} by {step}")
        self._rise()

    def _stop_politely(self) -> None:
        if self._stop is not None:
            self.story.remark("told to stop")
            self._stop.set()

    def _block(self) -> None:
        chat = self._draw.choice(self.writers).chat
        self.story.remark(f"{chat} blocks the bot")
        self._fall()
        self.service.blocked.add(chat)
        self.agenda.at(self.clock.seconds + self._draw.choice((HOUR, 20 * HOUR)), lambda: self._unblock(chat))

    def _unblock(self, chat: int) -> None:
        if chat in self.service.blocked:
            self.story.remark(f"{chat} lets the bot in again")
            self.service.blocked.remove(chat)
            self._rise()
            self._act(next(writer for writer in self.writers if writer.chat == chat))

    def _calm_down(self) -> None:
        self.story.remark("all is calm from here on")
        self.fate.is_calm = True
        self.service.line_is_down = False
        self.service.repeats = self.service.disorder = 0.0
        for chat in list(self.service.blocked):
            self._unblock(chat)

    def _end(self) -> None:
        self._over = True
        if self._stop is not None:
            self._stop.set()

    def _rise(self) -> None:
        """From now on nothing is in the program's way, unless something still is."""
        silent = self.service.blocked or self.auditor.rows("SELECT 1 FROM silences")
        if self._up_since is None and not self.fate.is_dead and not silent:
            self._up_since = self.clock()

    def up_for(self, chat: int) -> list[tuple[datetime, datetime]]:
        """The undisturbed stretches since the person was first heard, by the order of events and by the clock, wherever it was set to."""
        first, since = self._known[chat]
        return [(max(began, since), ended) for began, ended in self.up[first:]]

    def _is_heard(self, chat: int) -> None:
        self._known.setdefault(chat, (len(self.up), self.clock()))

    def _fall(self) -> None:
        if self._up_since is not None:
            self.up.append((self._up_since, self.clock()))
            self._up_since = None
