"""The same bot in a terminal, on the real clock: buttons are numbered, and a bare number taps one."""

from __future__ import annotations

import asyncio
import shutil
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from textwrap import wrap
from zoneinfo import ZoneInfo

from bot.channels.dialogue import Line
from bot.channels.phone import Phone
from bot.heard import Heard, Said, Tapped
from bot.house import House
from bot.rounds.pace import UNLIMITED, Pace
from bot.rounds.postman import Postman
from bot.rounds.wake import waking

ADDRESS = "terminal:me"
LEAVE = ("/quit", "/exit")
UNBROKEN = "\N{NO-BREAK SPACE}"


class Terminal:
    """Reads lines and shows messages until the input ends. Files that come are saved in ``files``."""

    def __init__(self, house: House, read_line: Callable[[], Awaitable[str | None]], show: Callable[[str], None], files: Path) -> None:
        self._house = house
        self._read_line = read_line
        self._show = show
        self._files = files
        self._phone = Phone(self._local_now, self._print, files)
        self._postman = Postman(house.database.outbox, self._phone, utc_now, Pace(UNLIMITED, None), fill=house.studio.fill)
        self._count = 0
        self._buttons: tuple[tuple[str, str], ...] = ()
        self._one_at_a_time = asyncio.Lock()

    async def talk(self) -> None:
        """Talks until the input ends or the person leaves."""
        if self._house.database.people.find(ADDRESS) is None:
            self._house.door.admit(ADDRESS, utc_now())
            self._hear(lambda key: Said(ADDRESS, key, key, "/start"))
        async with waking(self._wake):
            await self._wake()
            while (line := await self._read_line()) is not None and line.strip() not in LEAVE:
                if line.strip():
                    self._hear(partial(self._understood, line.strip()))
                    await self._wake()

    async def _wake(self) -> None:
        async with self._one_at_a_time:
            await self._postman.deliver_due()
            await self._house.alarm.tick()
            await self._postman.deliver_due()

    def _hear(self, make: Callable[[str], Heard]) -> None:
        self._count += 1
        self._house.engine.receive(make(f"terminal:{utc_now().isoformat()}:{self._count}"))

    def _understood(self, text: str, key: str) -> Heard:
        """A bare number that a button has is a tap; all else is said."""
        if text.isdecimal() and 1 <= int(text) <= len(self._buttons):
            return Tapped(ADDRESS, key, self._buttons[int(text) - 1][1])
        return Said(ADDRESS, key, key, text)

    def _print(self, line: Line) -> None:
        self._buttons = self._phone.newest_buttons()
        lines = ["", *(f"  {text}" for text in line.text.split("\n"))]
        if line.file:
            lines.append(f"  saved as {self._files / Path(line.file).name}")
        if line.buttons:
            labels = [f"{number} {label}" for number, (label, _) in enumerate(self._buttons, 1)]
            lines.extend(f"  {text}" for text in _in_lines(labels))
        self._show("\n".join((*lines, "")))

    def _local_now(self) -> datetime:
        person = self._house.database.people.find(ADDRESS)
        return utc_now().astimezone(ZoneInfo(person.zone) if person else UTC)


def _in_lines(labels: list[str]) -> list[str]:
    """The labels side by side, in lines that fit the terminal; none is broken."""
    width = shutil.get_terminal_size().columns - 2
    return [line.replace(UNBROKEN, " ") for line in wrap("  ".join(label.replace(" ", UNBROKEN) for label in labels), width)]


def utc_now() -> datetime:
    """The real clock."""
    return datetime.now(UTC)
