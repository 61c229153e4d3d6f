"""Looks at what the program keeps and what the person saw, beside what the model says both must be."""

from __future__ import annotations

import re
import sqlite3
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from bot.voice.post_said import PERHAPS_A_REPEAT
from tests.simulation.chat_service import Accepted, ChatService
from tests.simulation.ledger import Ledger, Logs

NEEDS = timedelta(hours=2)
"""Running undisturbed for so long after a round fell due, the program must have done it."""

NOTICED = timedelta(minutes=70)
"""By then it has looked at the clock again, as seldom as it does here, and knows that it was set."""

TOTAL = re.compile(r"^(\w+) today: (?:(\d+) h ?)?(?:(\d+))?(?: min)? in all", re.MULTILINE)


class Broken(AssertionError):
    """A promise was broken."""


def demand(is_so: bool, otherwise: str) -> None:
    """Raises Broken unless it is so."""
    if not is_so:
        raise Broken(otherwise)


@dataclass(slots=True)
class Auditor:
    """Reads the database file through a connection of its own, so that it sees only what was kept."""

    path: Path
    service: ChatService
    excused: set[int] = field(default_factory=set)
    _opened: sqlite3.Connection | None = None

    def close(self) -> None:
        """Lets go of the file."""
        if self._opened is not None:
            self._opened.close()
            self._opened = None

    def rows(self, query: str, *given: Any) -> list[Any]:
        """What is kept now."""
        if self._opened is None:
            self._opened = sqlite3.connect(self.path, isolation_level=None)
        return self._opened.execute(query, given).fetchall()

    def hours_agree(self, chat: int, ledger: Ledger) -> None:
        """Hours, tasks and the clock are as the model has them: nothing lost, nothing twice."""
        of = "JOIN people p ON p.id = x.person_id AND p.address = ?"
        address = f"telegram:{chat}"
        names = f"SELECT lower(c.name), x.minutes FROM stints x {of} JOIN categories c ON c.id = x.category_id AND c.person_id = p.id"
        _agree("hours", Counter(map(tuple, self.rows(names, address))), ledger.hours)
        _agree("tasks", Counter(row[0] for row in self.rows(f"SELECT x.title FROM tasks x {of}", address)), ledger.titles)
        kept = Counter(row[0][:16] for row in self.rows(f"SELECT x.starts FROM running x {of}", address))
        wanted = Counter([f"{ledger.runs_since:%Y-%m-%d %H:%M}"] if ledger.runs_since else [])
        _agree("clock", Counter(each.replace("T", " ") for each in kept.elements()), wanted)

    def total_agrees(self, text: str, ledger: Ledger, deed: Logs, now: datetime) -> None:
        """The total that an answer names is the sum that the model has."""
        for name, hours, minutes in TOTAL.findall(text):
            told = int(hours or 0) * 60 + int(minutes or 0)
            counted = ledger.minutes_on(now.astimezone(ledger.zone).date(), name.lower())
            demand(told == counted, f"the answer {text!r} should count {counted} minutes")

    def excuse(self) -> None:
        """The process died: what reached the person and is not marked so may come again."""
        self.excused |= {each.message_id for each in self._unmarked()}

    def post_is_in_order(self) -> None:
        """Every message reached its person, and came again only where the program could not know that it had arrived."""
        aside = self.rows("SELECT id, reason FROM parcels WHERE state = 'aside'")
        given_up = [each for each in aside if not each[1].startswith(("blocked", "CarryRefused"))]
        demand(not given_up, f"given up: {given_up[:3]}")
        owed = self.rows("SELECT id, text, tries, not_before FROM parcels WHERE state = 'owed'")
        demand(not owed, f"still owed at the end: {owed[:3]}")
        arrived = {(f"telegram:{each.chat}", str(each.message_id)) for each in self.service.accepted}
        sent = self.rows("SELECT address, carried_as, text FROM parcels WHERE state = 'sent'")
        lost = [text for address, carried_as, text in sent if (address, carried_as) not in arrived]
        demand(not lost, f"marked as sent, and never arrived: {lost[:3]}")
        for message in self._unmarked():
            known = not message.told or message.message_id in self.excused
            demand(known, f"sent twice without need: {message.text[:80]!r}")
            self._repeat_says_so(message)

    def _repeat_says_so(self, first: Accepted) -> None:
        """What came again after that says that it may have come before; unless it never came again, as to who blocked the bot."""
        words = first.text.removeprefix(PERHAPS_A_REPEAT + "\n")
        later = [each for each in self.service.accepted if each.chat == first.chat and each.message_id > first.message_id]
        says_so = any(each.text == f"{PERHAPS_A_REPEAT}\n{words}" for each in later)
        aside = self.rows("SELECT 1 FROM parcels WHERE state = 'aside' AND text = ?", words)
        demand(says_so or bool(aside), f"uncertain, and never came again or did not say so: {words[:80]!r}")

    def all_were_heard(self, ledgers: Iterable[tuple[int, Ledger]], sent: Counter[int]) -> None:
        """Every update was handled once and answered."""
        for chat, ledger in ledgers:
            demand(ledger.heard == sent[chat], f"{sent[chat]} updates of {chat}, {ledger.heard} handled")

    def rounds_agree(self, ledger: Ledger, chat: int, up: list[tuple[datetime, datetime]], at: dict[str, time]) -> None:
        """Each round came at most once a local day, and did come where nothing kept the program from it: in the stretches ``up``."""
        query = "SELECT round, written FROM parcels WHERE address = ? AND round IS NOT NULL AND kind = 'message' ORDER BY id"
        came: dict[str, Counter[date]] = {kind: Counter() for kind in at}
        for kind, written in self.rows(query, f"telegram:{chat}"):
            if kind in came:
                came[kind][_day(kind, written, ledger.zone)] += 1
        for kind, days in came.items():
            demand(not days or max(days.values()) == 1, f"{kind} more than once a day: {days}")
            for day in _days_of_need(kind, at[kind], ledger.zone, up):
                demand(kind == "evening" or days[day] == 1, f"no {kind} on {day}, though nothing was in its way")

    def _unmarked(self) -> Iterator[Accepted]:
        marked = {(row[0], int(row[1])) for row in self.rows("SELECT address, carried_as FROM parcels WHERE carried_as IS NOT NULL")}
        return (each for each in self.service.accepted if (f"telegram:{each.chat}", each.message_id) not in marked)


def _agree(what: str, kept: Counter[Any], wanted: Counter[Any]) -> None:
    demand(kept == wanted, f"{what}: too many {dict(kept - wanted)}, too few {dict(wanted - kept)}")


def _day(kind: str, written: str, zone: ZoneInfo) -> date:
    """The local day a round belongs to; a recap may come until the next noon."""
    local = datetime.fromisoformat(written).astimezone(zone)
    return (local - timedelta(hours=12)).date() if kind == "recap" else local.date()


def _days_of_need(kind: str, at: time, zone: ZoneInfo, up: list[tuple[datetime, datetime]]) -> Iterator[date]:
    """The local days on which the program ran undisturbed when the round fell due and for a while after."""
    for began, ended in up:
        day = began.astimezone(zone).date()
        while day <= ended.astimezone(zone).date():
            # Of a time that is skipped or comes twice, whichever way it is read must lie in a quiet stretch.
            readings = [datetime.combine(day, at.replace(fold=fold), zone).astimezone(UTC) for fold in (0, 1)]
            is_quiet = began + NOTICED < min(readings) and max(readings) + NEEDS < ended
            if is_quiet and (kind != "recap" or day.weekday() == 6):
                yield day
            day += timedelta(days=1)
