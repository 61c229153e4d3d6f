"""Days to months of a life with the bot, in one process, from one seed: the program is real, the world around it is simulated."""

from __future__ import annotations

import asyncio
from collections import Counter
from collections.abc import Awaitable, Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time, timedelta
from pathlib import Path
from random import Random
from typing import Any, TypeVar
from unittest.mock import patch
from zoneinfo import ZoneInfo

from bot.assemble import assemble
from bot.channels import telegram, telegram_line
from bot.channels.telegram import talk
from bot.channels.telegram_line import Line
from bot.heard import Heard
from bot.house import House
from bot.outside.geocoding import NoGeocoding
from bot.rounds import lookouts, postman
from bot.rounds.pace import UNLIMITED, Pace
from bot.settings import Settings, sample_settings
from storage.database import Database
from storage.records import Parcel
from tests.simulation.audit import Auditor, Broken
from tests.simulation.chat_service import ChatService, SimulatedRequest
from tests.simulation.disk import ShakyDisk
from tests.simulation.fate import EVERY_KIND, Died, Fate, Step, Trouble
from tests.simulation.ledger import Ledger, Logs
from tests.simulation.person import CLOCKED, Meant, Writer
from tests.simulation.skies import SimulatedSkies
from tests.simulation.story import Story
from tests.simulation.virtual_time import Agenda, Clock, VirtualLoop
from tests.stage import Links

LAZY_TICK = 3600.0
"""Seconds between the program's looks at what is due: on a virtual clock only their number costs anything."""

HOUR, DAY = 3600.0, 86400.0
LAST_HOURS = 4 * HOUR
"""For how long all goes well at the end, so that what was owed can arrive."""

# Each starts about a day before its clock change, where there is one. Instants: tz database 2026f.
PLACES: tuple[tuple[str, datetime, datetime | None], ...] = (
    ("Europe/Brussels", datetime(2026, 10, 24, 8, tzinfo=UTC), datetime(2026, 10, 25, 1, tzinfo=UTC)),
    ("Europe/Brussels", datetime(2026, 3, 28, 8, tzinfo=UTC), datetime(2026, 3, 29, 1, tzinfo=UTC)),
    ("Europe/Brussels", datetime(2026, 6, 5, 8, tzinfo=UTC), None),
    ("America/New_York", datetime(2026, 10, 31, 8, tzinfo=UTC), datetime(2026, 11, 1, 6, tzinfo=UTC)),
    ("Australia/Lord_Howe", datetime(2026, 4, 3, 20, tzinfo=UTC), datetime(2026, 4, 4, 15, tzinfo=UTC)),
    ("Africa/Cairo", datetime(2026, 4, 23, 0, tzinfo=UTC), datetime(2026, 4, 23, 22, tzinfo=UTC)),
    ("America/Havana", datetime(2026, 3, 7, 6, tzinfo=UTC), datetime(2026, 3, 8, 5, tzinfo=UTC)),
)
MORNINGS = (time(6), time(6), time(7, 30), time(2, 30), time(0, 15), time(1, 45))

Given = TypeVar("Given")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a life was like: how often each trouble struck, what reached people more than once, what was handed out again."""

    struck: Counter[tuple[Step, Trouble]]
    messages: int
    repeats: int
    updates: int
    handed_again: int
    days: float


class Life:
    """One seed's life. ``thorough`` plans a trouble of every kind for every kind of step."""

    def __init__(self, seed: int, folder: Path, template: bytes, *, thorough: bool = False) -> None:
        self.seed = seed
        draw = Random(f"{seed} world")
        zone, starts, self._clocks_change = draw.choice(PLACES)
        self.zone = ZoneInfo(zone)
        self.clock = Clock(starts + timedelta(minutes=draw.randrange(600)))
        self.agenda = Agenda(self.clock)
        self.story = Story(seed, self.zone, self.clock)
        self.service = ChatService(Random(f"{seed} service"), self.clock, repeats=draw.choice((0, 0.1)), disorder=draw.choice((0, 0.3)))
        self.fate = Fate(Random(f"{seed} fate"), self.clock, _rates(draw), _planned(draw) if thorough else {}, self.story.trouble)
        self.settings = _settings(zone, draw.choice(MORNINGS))
        self.path = folder / "life.sqlite"
        for ending in ("", "-wal", "-shm"):
            self.path.with_name(self.path.name + ending).unlink(missing_ok=True)
        self.path.write_bytes(template)
        self.auditor = Auditor(self.path, self.service)
        self.skies = SimulatedSkies(Random(f"{seed} skies"), self.fate, self.service, self.clock)
        self.meant: dict[str, Meant] = {}
        self.sent: Counter[int] = Counter()
        self.days = draw.choice((1, 1.5, 2, 2, 3)) if draw.random() < 0.98 else 40
        chats = [11, 12][: draw.choice((1, 1, 1, 2))]
        numbers = [1000]
        self.writers = [
            Writer(chat, Random(f"{seed} person {chat}"), self.service, self._bring, self.meant, numbers) for chat in chats
        ]
        self.ledgers = {chat: Ledger(self.zone, CLOCKED) for chat in chats}
        self.up: list[tuple[datetime, datetime]] = []
        self._up_since: datetime | None = None
        self._hearing: Heard | None = None
        self._failure: Exception | None = None
        self._stop: asyncio.Event | None = None
        self._over = False
        self._draw = draw
        self._fill_agenda()

    def live(self) -> Outcome:
        """Lives to the end. Raises Broken, with the story, when a promise was broken."""
        with self._surroundings():
            try:
                while not self._over:
                    self._run_once()
                    self._stay_down()
                self._look_back()
            except Broken as broken:
                raise Broken(f"{broken}\n{self.story}") from broken
            finally:
                self.auditor.close()
        repeats = len(self.service.accepted) - self.auditor.rows("SELECT count(*) FROM parcels WHERE kind <> 'edit' AND state = 'sent'")[0][0]
        self.auditor.close()
        return Outcome(
            self.fate.struck, len(self.service.accepted), repeats, sum(self.sent.values()), self.service.handed_again, self.days
        )

    # The process.

    def _run_once(self) -> None:
        """The program starts, and goes on until it is stopped or dies."""
        self.fate.is_dead = False
        loop = VirtualLoop(self.clock, self.agenda)
        self._rise()
        try:
            loop.run_until_complete(self._talk())
        except (Died, BaseExceptionGroup) as ended:
            if not self.fate.is_dead:
                raise
            self.auditor.excuse()
            self.story.remark("the process died")
        finally:
            self._fall()
            self._stop = None
            self.fate.is_dead = True
            loop.abandon()
        if self.fate.turns_in_circles:
            raise Broken("the program turns in circles")
        if self._failure is not None:
            raise Broken(f"the engine failed: {self._failure!r}") from self._failure

    async def _talk(self) -> None:
        self._stop = asyncio.Event()
        url = f"sqlite:///{self.path}"
        database = Database(url, lambda engine, failures: ShakyDisk(engine, failures, self.fate, self._kept))
        try:
            house = assemble(self.settings, database, lambda _: True, self.clock, self.skies, NoGeocoding(), Links())
            line = Line("4711:simulated", "http://simulated")
            await talk(line, _Watched(self, house), database.outbox, self._ticking(house), self.clock, self._stop, (), Pace(UNLIMITED, UNLIMITED), fill=_fill)
        finally:
            database.close()

    def _ticking(self, house: House) -> Callable[[], Awaitable[object]]:
        async def tick() -> None:
            self.fate.of("tick")
            await house.alarm.tick()

        return tick

    def hear(self, heard: Heard, receive: Callable[[Heard], None]) -> None:
        """The engine hears something; what it keeps meanwhile is that update's doing."""
        self._hearing = heard
        try:
            receive(heard)
        finally:
            self._hearing = None

    def give_up(self, error: Exception) -> None:
        """The engine could not handle an update, though nothing that it was sent is beyond it."""
        self._failure = error
        self.fate.die()

    def _kept(self, noted: bool) -> None:
        """A transaction was kept. One that notes a delivery must hold its whole effect, and no other must touch hours."""
        try:
            if noted and self._hearing is not None:
                self._note(self.meant[self._hearing.key])
                self._rise()
            for chat, ledger in self.ledgers.items():
                self.auditor.hours_agree(chat, ledger)
        except Broken as broken:
            self._failure = broken
            self.fate.die()

    def _note(self, meant: Meant) -> None:
        ledger, now = self.ledgers[meant.chat], self.clock()
        self.story.said(meant.line, meant.chat)
        parcel_id, text = self.auditor.newest_parcel(meant.chat)
        ledger.hear(meant.deed, meant.message_key, meant.is_edit, now, parcel_id)
        if isinstance(meant.deed, Logs):
            self.auditor.total_agrees(text, ledger, meant.deed, now)

    def _stay_down(self) -> None:
        """Whoever watches over the process starts it again after a while."""
        until = self.clock.seconds + self._draw.choice((1.0, 1.0, 30.0, 900.0, 3 * HOUR))
        while self.clock.seconds < until and not self._over:
            self.agenda.pass_time(until)

    # The world.

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
        """On its way an update may be late, so that a later one comes before it."""
        if self._draw.random() < 0.1:
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
            next(self._act(writer) for writer in self.writers if writer.chat == chat)

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

    def _fall(self) -> None:
        if self._up_since is not None:
            self.up.append((self._up_since, self.clock()))
            self._up_since = None

    # The end.

    def _look_back(self) -> None:
        self.auditor.all_were_heard(self.ledgers.items(), self.sent)
        self.auditor.post_is_in_order()
        times = {"morning": self.settings.messages.morning, "evening": self.settings.messages.evening, "recap": self.settings.messages.recap}
        for chat, ledger in self.ledgers.items():
            self.auditor.hours_agree(chat, ledger)
            self.auditor.rounds_agree(ledger, chat, self.up, times)

    @contextmanager
    def _surroundings(self) -> Iterator[None]:
        """What the program takes from the system is the world's."""
        with ExitStack() as stack:
            for part, name, value in (
                (telegram_line, "HTTPXRequest", lambda **_: SimulatedRequest(self.service, self.fate)),
                (telegram, "TICK_SECONDS", LAZY_TICK),
                (postman, "LONG_REST_SECONDS", LAZY_TICK),
                (lookouts, "off_loop", self.skies.beside),
            ):
                stack.enter_context(patch.object(part, name, value))
            yield


class _Watched:
    """The engine, and who looks over its shoulder."""

    def __init__(self, life: Life, house: House) -> None:
        self._life = life
        self._engine = house.engine

    def receive(self, heard: Heard) -> None:
        self._life.hear(heard, self._engine.receive)

    def set_aside(self, heard: Heard, error: Exception) -> None:
        self._life.give_up(error)


async def _fill(parcel: Parcel) -> Parcel:
    """Stands in for the studio: what a file holds is no matter of the post's."""
    return parcel if parcel.encloses is None else replace(parcel, file_bytes=b"made when it is carried")


def _rates(draw: Random) -> dict[Step, float]:
    """How likely each kind of step is to go wrong in this life: mostly seldom, sometimes often."""
    often = draw.choice((0.2, 0.05, 0.0))
    return {"begin": 0.01, "commit": 0.02, "committed": 0.02, "read": 0.002, "poll": 0.05, "send": often, "courtesy": 0.05, "forecast": 0.2, "tick": 0.01}


def _planned(draw: Random) -> dict[tuple[Step, int], Trouble]:
    """Every trouble of every kind of step, each at an early occurrence of its own."""
    planned: dict[tuple[Step, int], Trouble] = {}
    last: Counter[Step] = Counter()
    for step, trouble in draw.sample(EVERY_KIND, len(EVERY_KIND)):
        last[step] += draw.randint(1, 2)
        planned[step, last[step]] = trouble
    return planned


def _settings(zone: str, morning: time) -> Settings:
    sample = sample_settings()
    return replace(sample, person=replace(sample.person, zone=zone), messages=replace(sample.messages, morning=morning))
