"""Several ``weekwright run`` on one PostgreSQL, called in turn as Telegram would, and killed again and again.

Each person's updates are posted in order, each until it is answered with 200;
one in ten goes to two workers at once, as it does when an answer comes late.
"""

from __future__ import annotations

import http.client
import json
import os
import signal
import socket
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import count
from pathlib import Path
from random import Random
from typing import Any

import psycopg

from bot.channels.telegram_webhook import SECRET_HEADER, secret_of
from bot.voice.post_said import PERHAPS_A_REPEAT
from tests.channels.running import GHENT, NOBODY_LISTENS, ROOT
from tests.channels.standin import StandIn

CATEGORIES = ("workshop", "museum", "learning", "family", "home")
STARTS = datetime(2026, 3, 2, 19, 30)
PASSES = timedelta(hours=16)
"""An evening and a morning message fall due meanwhile."""

TO_TWO = 0.1
REST_SECONDS = (1.5, 3.0)
ANSWER_SECONDS = 30.0
AGAIN_SECONDS = 0.5
KEPT = (
    "SELECT p.address, lower(c.name), s.minutes FROM stints s JOIN people p ON p.id = s.person_id "
    "JOIN categories c ON c.id = s.category_id AND c.person_id = s.person_id ORDER BY s.person_id, s.id"
)
Said = tuple[str, int]


class Workers:
    """So many of them, each at a port of its own."""

    def __init__(self, standin: StandIn, folder: Path, url: str, people: tuple[int, ...], number: int) -> None:
        self.ports = [_free_port() for _ in range(number)]
        self._clock = folder / "clock"
        self._log = (folder / "log").open("ab")
        self._pids: dict[int, int] = {}
        environment = {
            **{name: value for name, value in os.environ.items() if not name.startswith("WEEKWRIGHT_")},
            "WEEKWRIGHT_TOKEN": standin.token,
            "WEEKWRIGHT_TELEGRAM_URL": standin.url,
            "WEEKWRIGHT_DATABASE": url,
            "WEEKWRIGHT_WORKERS": str(number),
            "WEEKWRIGHT_WEBHOOK": "https://week.example/telegram",
            "WEEKWRIGHT_ALLOWED": ",".join(map(str, people)),
            "WEEKWRIGHT_SETTINGS": str(ROOT / "sample_config" / "settings.toml"),
            "WEEKWRIGHT_FORECAST_URL": NOBODY_LISTENS,
            "WEEKWRIGHT_GEOCODING_URL": NOBODY_LISTENS,
            "TEST_CLOCK": str(self._clock),
        }
        command = [sys.executable, "-m", "tests.channels.nursery"]
        self._nursery = subprocess.Popen(
            command, cwd=ROOT, env=environment, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=self._log, text=True
        )

    def __enter__(self) -> Workers:
        for port in self.ports:
            self.start(port)
        return self

    def __exit__(self, *_: object) -> None:
        for port in list(self._pids):
            self.kill(port)
        assert self._nursery.stdin is not None
        assert self._nursery.stdout is not None
        self._nursery.stdin.close()
        self._nursery.wait(timeout=20)
        self._nursery.stdout.close()
        self._log.close()

    def at(self, local: datetime) -> None:
        """The clock of all of them now shows this local time in Ghent."""
        moved = self._clock.with_suffix(".new")
        moved.write_text(local.replace(tzinfo=GHENT).isoformat(), "utf-8")
        moved.replace(self._clock)

    def start(self, port: int) -> None:
        """Starts the one at this port."""
        assert self._nursery.stdin is not None
        assert self._nursery.stdout is not None
        self._nursery.stdin.write(f"{port}\n")
        self._nursery.stdin.flush()
        self._pids[port] = int(self._nursery.stdout.readline())

    def kill(self, port: int) -> None:
        """SIGKILL: no chance to tidy up."""
        with suppress(ProcessLookupError):
            os.kill(self._pids.pop(port), signal.SIGKILL)


@dataclass
class Front:
    """Passes updates on to the workers, one after another, as a proxy before them does."""

    workers: Workers
    secret: str
    _turn: count[int] = field(default_factory=count)
    failures: int = 0

    def post(self, update: dict[str, Any]) -> None:
        """Until a worker has answered 200, as Telegram does."""
        body = json.dumps(update)
        while not self._posted(body):
            self.failures += 1
            time.sleep(AGAIN_SECONDS)

    def _posted(self, body: str) -> bool:
        ports = self.workers.ports
        connection = http.client.HTTPConnection("127.0.0.1", ports[next(self._turn) % len(ports)], timeout=ANSWER_SECONDS)
        try:
            connection.request("POST", "/telegram", body, {SECRET_HEADER: self.secret})
            return connection.getresponse().status == 200
        except (OSError, http.client.HTTPException):
            return False
        finally:
            connection.close()


@dataclass(frozen=True, slots=True)
class Account:
    """What was done and what it left. ``out_of_order`` are people whose hours are not just those they wrote, in their order."""

    updates: int
    to_two: int
    kills: int
    posted_again: int
    out_of_order: tuple[str, ...]
    rounds: Counter[tuple[str, str, str]]
    messages: int
    parcels: int
    unmarked: int
    repeats: int
    unsent: int
    seconds: float

    @property
    def is_kept(self) -> bool:
        """Nothing lost, and nothing twice but messages that a killed worker had just sent, which say so when they come again."""
        once = set(self.rounds.values()) <= {1}
        repeats = self.messages - self.parcels == self.unmarked <= self.repeats
        return not self.out_of_order and once and repeats and not self.unsent


def workers_killed(
    folder: Path, url: str, *, seconds: float, people: int, number: int = 4, seed: int = 1, patience: float = 120
) -> Account:
    """For so many seconds people write, while each second one of the workers is killed and started again at once."""
    began = time.monotonic()
    persons = tuple(range(101, 101 + people))
    with StandIn() as standin:
        workers = Workers(standin, folder, url, persons, number)
        workers.at(STARTS)
        with workers, ThreadPoolExecutor(people) as speakers:
            front = Front(workers, secret_of(standin.token))
            _wait_until_called(workers, patience)
            until = time.monotonic() + seconds
            speaking = [speakers.submit(_speak, standin, front, person, until, Random(f"{seed} {person}")) for person in persons]
            kills = _kill(workers, until, seconds, Random(f"{seed} kills"))
            spoken = {person: said.result() for person, said in zip(persons, speaking, strict=True)}
            with psycopg.connect(url, autocommit=True) as database:
                _let_the_rest_arrive(workers, database, patience)
                time.sleep(0.5)
                return _account(standin, front, database, spoken, kills, time.monotonic() - began)


def _speak(standin: StandIn, front: Front, person: int, until: float, random: Random) -> tuple[list[Said], int]:
    """Writes hours as long as there is time; gives what was written, in order, and how often two workers heard it at once."""
    said: list[Said] = []
    twice = 0
    with ThreadPoolExecutor(1) as beside:
        while time.monotonic() < until:
            category, minutes = random.choice(CATEGORIES), random.randint(1, 9)
            message = {**standin._message(person), "text": f"{minutes}m {category}"}
            update = {"update_id": standin.hand_out({}), "message": message}
            again = beside.submit(front.post, update) if random.random() < TO_TWO else None
            front.post(update)
            if again is not None:
                again.result()
                twice += 1
            said.append((category, minutes))
            time.sleep(random.uniform(*REST_SECONDS))
    return said, twice


def _kill(workers: Workers, until: float, seconds: float, random: Random) -> int:
    """One at random each second, at a random moment of it, while the clock goes on; gives how many."""
    kills = 0
    began = until - seconds
    next_kill = began + random.random()
    while (now := time.monotonic()) < until:
        workers.at(STARTS + PASSES * ((now - began) / seconds))
        if now > next_kill:
            port = random.choice(workers.ports)
            workers.kill(port)
            workers.start(port)
            kills += 1
            next_kill = began + kills + random.random()
        time.sleep(0.05)
    return kills


def _wait_until_called(workers: Workers, patience: float) -> None:
    """Until every worker answers, though it be with no."""
    _wait(lambda: all(map(_listens, workers.ports)), patience)


def _listens(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def _let_the_rest_arrive(workers: Workers, database: psycopg.Connection[Any], patience: float) -> None:
    now = STARTS + PASSES

    def is_over() -> bool:
        nonlocal now
        now += timedelta(seconds=2)
        workers.at(now)
        return _number(database, "SELECT count(*) FROM parcels WHERE state = 'owed'") == 0

    _wait(is_over, patience)


def _wait(is_so: Callable[[], bool], patience: float) -> None:
    last = time.monotonic() + patience
    while not is_so():
        assert time.monotonic() < last, f"not so within {patience} s"
        time.sleep(0.1)


def _account(
    standin: StandIn,
    front: Front,
    database: psycopg.Connection[Any],
    spoken: dict[int, tuple[list[Said], int]],
    kills: int,
    seconds: float,
) -> Account:
    kept: dict[str, list[Said]] = {}
    for address, name, minutes in database.execute(KEPT):
        kept.setdefault(address, []).append((name, minutes))
    marked = {int(row[0]) for row in database.execute("SELECT carried_as FROM parcels WHERE kind <> 'edit' AND state = 'sent'")}
    rounds = database.execute("SELECT address, round, written FROM parcels WHERE round IS NOT NULL AND kind = 'message'").fetchall()
    arrived = [shown for shown in standin.log if shown.edits == 0]
    return Account(
        updates=sum(len(said) for said, _ in spoken.values()),
        to_two=sum(twice for _, twice in spoken.values()),
        kills=kills,
        posted_again=front.failures,
        out_of_order=tuple(f"telegram:{person}" for person, (said, _) in spoken.items() if kept.get(f"telegram:{person}", []) != said),
        rounds=Counter((to, kind, datetime.fromisoformat(written).astimezone(GHENT).date().isoformat()) for to, kind, written in rounds),
        messages=len(arrived),
        parcels=len(marked),
        unmarked=sum(shown.message_id not in marked for shown in arrived),
        repeats=sum(shown.text.startswith(PERHAPS_A_REPEAT) for shown in arrived),
        unsent=_number(database, "SELECT count(*) FROM parcels WHERE state <> 'sent'"),
        seconds=seconds,
    )


def _number(database: psycopg.Connection[Any], query: str) -> int:
    found = database.execute(query.encode()).fetchone()
    return int(found[0]) if found else 0


def _free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as server:
        port: int = server.getsockname()[1]
        return port
