"""Days to months of a life with the bot, in one process, from one seed: the program is real, the world around it is simulated."""

from __future__ import annotations

import asyncio
from collections import Counter
from collections.abc import Awaitable, Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from unittest.mock import patch

from bot.assemble import assemble
from bot.channels import telegram, telegram_line
from bot.channels.telegram import talk
from bot.channels.telegram_line import Line
from bot.engine import Engine
from bot.heard import Heard
from bot.house import House
from bot.outside.geocoding import NoGeocoding
from bot.rounds import lookouts, postman
from bot.rounds.pace import UNLIMITED, Pace
from bot.voice.questions import NOTHING_TO_UNDO
from storage.database import Database
from storage.desk import Desk
from storage.records import Parcel
from tests.simulation.audit import Broken, demand
from tests.simulation.chat_service import SimulatedRequest
from tests.simulation.disk import ShakyDisk
from tests.simulation.fate import Died, Step, Trouble
from tests.simulation.ledger import Logs, Looks, TakesBackLatest
from tests.simulation.person import Meant
from tests.simulation.virtual_time import VirtualLoop
from tests.simulation.world import HOUR, World
from tests.stage import Links

LAZY_TICK = 3600.0
"""Seconds between the program's looks at what is due: on a virtual clock only their number costs anything."""

ASKING = tuple(NOTHING_TO_UNDO.values())
"""How a written undo is answered that takes nothing back before a tap."""

_HEAR = Engine._hear


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a life was like: how often each trouble struck, what reached people more than once, what was handed out again."""

    struck: Counter[tuple[Step, Trouble]]
    messages: int
    repeats: int
    updates: int
    handed_again: int
    days: float


class Life(World):
    """One seed's life. ``thorough`` plans a trouble of every kind for every kind of step."""

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
        repeats = (
            len(self.service.accepted) - self.auditor.rows("SELECT count(*) FROM parcels WHERE kind <> 'edit' AND state = 'sent'")[0][0]
        )
        self.auditor.close()
        return Outcome(self.fate.struck, len(self.service.accepted), repeats, sum(self.sent.values()), self.service.handed_again, self.days)

    # The process.

    def _run_once(self) -> None:
        """The program starts, and goes on until it is stopped or dies."""
        self.fate.is_dead = False
        loop = VirtualLoop(self.clock, self.agenda)
        self._rise()
        try:
            loop.run_until_complete(self._talk())
        except (Died, BaseExceptionGroup):
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
        database = Database(url, lambda kind: ShakyDisk(kind, self.fate, self._kept))
        try:
            house = assemble(self.settings, database, lambda _: True, self.clock, self.skies, NoGeocoding(), Links())
            line, pace = Line("4711:simulated", "http://simulated"), Pace(UNLIMITED, None)
            engine, outbox = _Watched(self, house), database.outbox
            await talk(line, engine, outbox, self._ticking(house), self.clock, self._stop, (), pace, fill=_fill)
        finally:
            database.close()

    def _ticking(self, house: House) -> Callable[[], Awaitable[object]]:
        async def tick() -> None:
            self.fate.of("tick")
            await house.alarm.tick()

        return tick

    def hear(self, receive: Callable[[], None]) -> None:
        """The engine receives something; what it keeps meanwhile is that, and what it does not keep is forgotten."""
        try:
            receive()
        finally:
            self._hearing.clear()

    def _watch(self) -> Callable[[Engine, Desk, Heard], None]:
        """Looks over the engine's shoulder as it handles something: what it answers counts once that is kept."""

        def hear(engine: Engine, desk: Desk, heard: Heard) -> None:
            _HEAR(engine, desk, heard)
            answer = desk.outbox.latest()
            if answer is not None:
                self._hearing.append((self.meant[heard.key], answer))

        return hear

    def give_up(self, error: Exception) -> None:
        """The engine could not handle an update, though nothing that it was sent is beyond it."""
        self._failure = error
        self.fate.die()

    def _kept(self) -> None:
        """A transaction was kept. One in which something was heard must hold its whole effect, and no other must touch hours."""
        try:
            for meant, answer in self._hearing:
                self._note(meant, answer)
            if self._hearing:
                self._rise()
            self._hearing.clear()
            for chat, ledger in self.ledgers.items():
                self.auditor.hours_agree(chat, ledger)
        except Broken as broken:
            self._failure = broken
            self.fate.die()

    def _note(self, meant: Meant, answer: Parcel) -> None:
        ledger, now = self.ledgers[meant.chat], self.clock()
        self._is_heard(meant.chat)
        self.story.said(meant.line, meant.chat)
        deed = meant.deed
        if isinstance(deed, TakesBackLatest) and answer.text.startswith(ASKING):
            demand(ledger.did_nothing, "undo was answered with a question, though what came before it had done something")
            deed = Looks()
        ledger.hear(deed, meant.message_key, meant.is_edit, now, answer.id)
        if isinstance(deed, Logs):
            self.auditor.total_agrees(answer.text, ledger, deed, now)

    def _stay_down(self) -> None:
        """Whoever watches over the process starts it again after a while."""
        a_while = self._draw.choice((1.0, 1.0, 30.0, 900.0, 3 * HOUR))
        # A question that was fated to end it may have waited until all was calm.
        until = self.clock.seconds + (1.0 if self.fate.is_calm else a_while)
        while self.clock.seconds < until and not self._over:
            self.agenda.pass_time(until)

    # The end.

    def _look_back(self) -> None:
        self.auditor.all_were_heard(self.ledgers.items(), self.sent)
        self.auditor.post_is_in_order()
        messages = self.settings.messages
        times = {
            "morning": messages.morning,
            "evening": messages.evening,
            "recap": messages.recap,
        }
        for chat, ledger in self.ledgers.items():
            self.auditor.hours_agree(chat, ledger)
            self.auditor.rounds_agree(ledger, chat, self.up_for(chat), times)

    @contextmanager
    def _surroundings(self) -> Iterator[None]:
        """What the program takes from the system is the world's."""
        with ExitStack() as stack:
            for part, name, value in (
                (telegram_line, "Wire", lambda *_: SimulatedRequest(self.service, self.fate)),
                (Engine, "_hear", self._watch()),
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

    def receive_all(self, heard: Sequence[Heard]) -> None:
        self._life.hear(lambda: self._engine.receive_all(heard))

    def receive(self, heard: Heard) -> None:
        self._life.hear(lambda: self._engine.receive(heard))

    def set_aside(self, heard: Heard, error: Exception) -> None:
        self._life.give_up(error)


async def _fill(parcel: Parcel) -> Parcel:
    """Stands in for the studio: what a file holds is no matter of the post's."""
    return parcel if parcel.encloses is None else replace(parcel, file_bytes=b"made when it is carried")
