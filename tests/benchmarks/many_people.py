"""Ten thousand people due at the same minute, and how an update's cost grows with the number of people.

Planning and wording of all morning messages is counted in seconds of the
processor, beside the answers of a bare echo that would fit into them. Sending is watched for a minute, through a stand-in that refuses
what is too fast, while one more person writes. An update's cost is taken at
100, 1,000, 10,000 and 100,000 people in the database.

    python -m tests.benchmarks.many_people [PEOPLE] [MOST IN THE DATABASE]
"""

from __future__ import annotations

import asyncio
import logging
import sqlite3
import sys
import tempfile
import time
from collections.abc import Sequence
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from bot.assemble import assemble
from bot.heard import Said
from bot.house import House
from bot.outside.geocoding import NoGeocoding
from bot.settings import sample_settings
from storage.database import Database
from tests.benchmarks.crowd import address, fill
from tests.benchmarks.far_end import FIRST_PERSON, FarEnd, Watched
from tests.benchmarks.programs import environment, running
from tests.benchmarks.throughput import measure
from tests.rounds.test_daily import forecast

FILLED = datetime(2026, 3, 2, 11, tzinfo=UTC)
DUE = datetime(2026, 3, 3, 5, tzinfo=UTC)
# Ten thousand mornings within the 60 s in which an echo that answers 582 a second would have answered 34,920 messages.
MOST_ANSWERS = 60.0 * 582 / 10_000
LEAST_RATE, MOST_WAIT, MOST_GROWTH = 0.95 * 30, 2.0, 1.2
PLANNED_TIMES, ECHOED_PEOPLE = 2, 100
WATCHED_SECONDS = 60.0
TURNS, UPDATES_A_TURN = 100, 7
TEXTS = ("1h workshop", "20m family", "task oil the chains", "show goals")


class Rain:
    """The same forecast everywhere."""

    def fetch(self, _latitude: float, _longitude: float, /) -> str:
        return forecast("2026-03-03")


class Crowded:
    """An in-process house with so many people in its database, at a moment that can be set."""

    def __init__(self, folder: Path, count: int) -> None:
        self.path = folder / "week.sqlite"
        self.now = FILLED
        self.database = Database(f"sqlite:///{self.path}")
        self.house: House = assemble(sample_settings(), self.database, lambda _: True, lambda: self.now, Rain(), NoGeocoding())
        fill(self.house, self.path, count)

    def keep_only_mornings(self) -> None:
        """Nothing but the morning messages is due then, and to the last person not even that. The evening before was asked about."""
        with closing(sqlite3.connect(self.path)) as connection, connection:
            evenings = "UPDATE rounds SET key = ?, due = replace(due, key, ?) WHERE kind = 'evening' AND key < ?"
            connection.execute(evenings, (f"{DUE:%Y-%m-%d}",) * 3)
            connection.execute("DELETE FROM rounds WHERE kind <> 'morning' AND due <= ?", (f"{DUE:%Y-%m-%dT%H:%M:%S}.999999Z",))
            connection.execute("DELETE FROM rounds WHERE person_id = (SELECT max(id) FROM people)")


def planning(count: int) -> float:
    """The processor's seconds for planning, wording and owing all morning messages of so many people."""
    with tempfile.TemporaryDirectory() as name:
        crowded = Crowded(Path(name), count + 1)
        crowded.keep_only_mornings()
        crowded.now = DUE
        began = time.process_time()
        done = asyncio.run(crowded.house.alarm.tick())
        seconds = time.process_time() - began
        crowded.database.close()
    assert done == count
    return seconds


def planned_beside_the_echo(count: int) -> tuple[float, float]:
    """The processor's seconds for the mornings of so many people, and the bare echo's answers a second: in turns, of each the best."""
    echoed, planned = zip(*((measure("echo", ECHOED_PEOPLE).rate, planning(count)) for _ in range(PLANNED_TIMES)), strict=True)
    return min(planned), max(echoed)


def sending(count: int) -> Watched:
    """What arrives in a minute when so many are due, and how long one more person waits for replies."""
    with tempfile.TemporaryDirectory() as name, FarEnd(strict=True) as far_end:
        folder = Path(name)
        crowded = Crowded(folder, count + 1)
        crowded.keep_only_mornings()
        crowded.database.close()
        (folder / "clock").write_text(DUE.isoformat(), "utf-8")
        clock = {"TEST_CLOCK": str(folder / "clock")}
        command = [sys.executable, "-m", "tests.channels.run_with_clock"]
        with running(command, environment(far_end.url, far_end.token, [FIRST_PERSON + count], folder) | clock, folder):
            return far_end.watch(WATCHED_SECONDS, FIRST_PERSON + count)


class Updates:
    """Updates of anyone among so many people."""

    def __init__(self, folder: Path, count: int) -> None:
        folder.mkdir()
        self._crowded, self._random, self._count = Crowded(folder, count), Random(count), count
        self._number = 0

    def turn(self) -> float:
        """The processor's milliseconds for one update, of some."""
        began, first = time.process_time(), self._number
        for text in TEXTS * UPDATES_A_TURN:
            self._number += 1
            self._crowded.now += timedelta(seconds=1)
            whose = address(self._random.randint(1, self._count))
            self._crowded.house.engine.receive(Said(whose, f"update:{self._number}", f"message:{self._number}", text))
        return (time.process_time() - began) * 1000 / (self._number - first)

    def close(self) -> None:
        """Nobody writes any more."""
        self._crowded.database.close()


def updates(counts: Sequence[int]) -> dict[int, float]:
    """The processor's milliseconds for an update among so many people, who take turns: of each the best."""
    with tempfile.TemporaryDirectory() as name:
        among = {count: Updates(Path(name) / str(count), count) for count in counts}
        taken = [{count: each.turn() for count, each in among.items()} for _ in range(TURNS)]
        for each in among.values():
            each.close()
    # The first turn compiles statements and loads modules.
    return {count: min(turn[count] for turn in taken[1:]) for count in counts}


def main(people: int = 10_000, most: int = 100_000) -> int:
    """Prints the table; 1 when something is beyond its limit."""
    logging.disable(logging.INFO)
    seconds, echoed = planned_beside_the_echo(people)
    _told(f"planning {people} mornings, processor s", seconds)
    _told("the bare echo's answers a second", echoed)
    fits = [_row("a morning's cost, in answers of the echo", seconds / people * echoed, MOST_ANSWERS)]
    watched = sending(people)
    fits += [
        _row("sent a second, at least", -watched.accepted / watched.seconds, -LEAST_RATE),
        _row("refused as too fast", watched.refused, 0),
        _row("longest wait of another person, s", max(watched.waits), MOST_WAIT),
    ]
    counts = [count for count in (100, 1_000, 10_000, 100_000) if count <= most]
    costs = updates(counts)
    for count, cost in costs.items():
        _told(f"an update among {count} people, ms", cost)
    fits.append(_row("growth of it, most to fewest people", costs[counts[-1]] / costs[counts[0]], MOST_GROWTH))
    return 0 if all(fits) else 1


def _told(what: str, measured: float) -> None:
    sys.stdout.write(f"{what:44} {measured:8.2f}   told only\n")
    sys.stdout.flush()


def _row(what: str, measured: float, most: float) -> bool:
    sys.stdout.write(f"{what:44} {abs(measured):8.2f}   limit {abs(most):.2f}\n")
    sys.stdout.flush()
    return measured <= most


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
