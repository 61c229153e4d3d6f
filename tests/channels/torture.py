"""A real ``weekwright run`` that is killed again and again while a chat service misbehaves, and the account of it afterwards.

The stand-in hands updates out again and out of order, one answer in five is
faulty, and SIGKILL comes at random moments. Everything is drawn from a seed,
but for the moments themselves, which the machine decides.
"""

from __future__ import annotations

import sqlite3
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from random import Random
from threading import Lock, Thread

from bot.voice.post_said import PERHAPS_A_REPEAT
from tests.channels.running import GHENT, Running
from tests.channels.standin import StandIn
from tests.channels.standin_http import Answer, Call, Fault, garbles, hangs, refuses, resets, too_many

FAULTY = 0.2
HANDED_AGAIN = 0.7
"""Often, because whoever hears much together asks seldom."""
LONGEST_START = 90.0
KEPT = "SELECT c.name, s.minutes FROM stints s JOIN categories c ON c.id = s.category_id AND c.person_id = s.person_id"
CATEGORIES = ("workshop", "museum", "learning", "family", "home")
STARTS = datetime(2026, 3, 2, 7, 45)
PEOPLE = tuple(range(101, 121))
"""So many that each chat keeps to the pace of about one message a second."""


class Unreliable(StandIn):
    """Goes wrong in one answer of five, hands out again what was confirmed, and puts updates in another order."""

    def __init__(self, seed: int) -> None:
        super().__init__()
        self._random = Random(seed)
        self._drawing = Lock()
        self._handed: list[dict[str, object]] = []
        self.is_calm = False
        self.faults: Counter[str] = Counter()
        self.uncertain = 0
        self.handed_again = 0
        self.spoken_until = STARTS

    def __enter__(self) -> Unreliable:
        super().__enter__()
        return self

    def _respond(self, call: Call) -> Answer:
        fault = self._drawn(call)
        if fault is not None:
            self.fault(call.method, fault)
        return super()._respond(call)

    def _drawn(self, call: Call) -> Fault | None:
        with self._drawing:
            if self.is_calm or self._random.random() >= FAULTY:
                return None
            fault = self._random.choice(
                (
                    too_many(self._random.choice((0, 1))),
                    refuses(500, "Internal Server Error"),
                    refuses(502, "Bad Gateway"),
                    resets(accepted=self._random.random() < 0.5),
                    garbles(accepted=self._random.random() < 0.5),
                    hangs(0.05, accepted=self._random.random() < 0.5),
                )
            )
            self.faults[f"{fault.behaviour} {fault.status}{' accepted' if fault.accepted else ''}"] += 1
            self.uncertain += fault.accepted and call.method == "sendmessage"
            return fault

    def _get_updates(self, call: Call) -> Answer:
        answer = super()._get_updates(call)
        if self.is_calm or answer.fault is not None or not isinstance(answer.result, list):
            return answer
        with self._drawing:
            batch = list(answer.result)
            if self._handed and self._random.random() < HANDED_AGAIN:
                again = self._random.choice(self._handed)
                batch.append(again)
                self.handed_again += 1
            self._handed += answer.result
            if self._random.random() < 0.3:
                self._random.shuffle(batch)
        return Answer(batch, then=answer.then)


@dataclass(frozen=True, slots=True)
class Account:
    """What the torture was, and what it left: hours as category and minutes, messages that came and those that came again."""

    updates: int
    kills: int
    faults: Counter[str]
    handed_again: int
    sent: Counter[tuple[str, int]]
    kept: Counter[tuple[str, int]]
    messages: int
    repeats: int
    unmarked: int
    uncertain: int
    rounds: Counter[tuple[str, str, str]]
    unanswered: int
    still_owed: int
    seconds: float


def torture(folder: Path, updates: int, kills: int, seed: int, patience: float, url: str | None = None) -> Account:
    """Sends ``updates`` over some simulated days while the bot is killed ``kills`` times; waits ``patience`` seconds for the rest."""
    began = time.monotonic()
    random = Random(f"{seed} torture")
    more = {} if url is None else {"WEEKWRIGHT_DATABASE": url}
    with Unreliable(seed) as standin, Running(standin, folder, PEOPLE, more=more) as bot:
        bot.at(f"{STARTS:%Y-%m-%d %H:%M}")
        bot.start()
        sent: Counter[tuple[str, int]] = Counter()
        speaker = Thread(target=_speak, args=(standin, bot, updates, Random(f"{seed} speaker"), sent))
        speaker.start()
        for _ in range(kills):
            _kill_at_some_moment(standin, bot, random)
        speaker.join()
        now = _let_time_pass(bot, standin.spoken_until, patience, lambda: _is_over(bot, updates))
        standin.is_calm = True
        _let_time_pass(bot, now, patience, lambda: _is_over(bot, updates))
        bot.terminate()
        return _account(standin, bot, sent, updates, kills, time.monotonic() - began)


def _speak(standin: Unreliable, bot: Running, updates: int, random: Random, sent: Counter[tuple[str, int]]) -> None:
    """Writes hours, a handful at a time, while the days go by."""
    now = STARTS
    for number in range(updates):
        category, minutes = random.choice(CATEGORIES), random.randint(1, 9)
        sent[category, minutes] += 1
        standin.say(f"{minutes}m {category}", PEOPLE[number % len(PEOPLE)])
        if number % 10 == 9:
            now += timedelta(minutes=random.randint(20, 90))
            bot.at(f"{now:%Y-%m-%d %H:%M}")
            # So that there is always something under way when the next kill comes.
            until = time.monotonic() + LONGEST_START
            while _handled(bot) < number - 10 and time.monotonic() < until:
                now += timedelta(seconds=5)
                bot.at(f"{now:%Y-%m-%d %H:%M:%S}")
                time.sleep(0.05)
    standin.spoken_until = now


def _kill_at_some_moment(standin: Unreliable, bot: Running, random: Random) -> None:
    """SIGKILL somewhere between the first question that the process asks and a second later; then it starts again."""
    asked = _polls(standin)
    standin.wait_for(lambda: _polls(standin) > asked, LONGEST_START)
    time.sleep(random.choice((0.0, 0.02, 0.1, random.uniform(0, 1))))
    bot.kill()
    bot.start()


def _polls(standin: Unreliable) -> int:
    return sum(call.method == "getupdates" for call in standin.calls)


def _let_time_pass(bot: Running, now: datetime, seconds: float, until: Callable[[], bool]) -> datetime:
    """The bot's clock goes on, a few times as fast as ours, until it is so; gives what it shows then."""
    last = time.monotonic() + seconds
    while not until():
        assert time.monotonic() < last, f"not over within {seconds} s"
        time.sleep(0.2)
        now += timedelta(seconds=2)
        bot.at(f"{now:%Y-%m-%d %H:%M:%S}")
    return now


def _is_over(bot: Running, updates: int) -> bool:
    return _handled(bot) == updates and bot.count("SELECT count(*) FROM parcels WHERE state = 'owed'") == 0


def _handled(bot: Running) -> int:
    try:
        return bot.count("SELECT count(*) FROM handled")
    except sqlite3.OperationalError:
        return 0


def _account(standin: Unreliable, bot: Running, sent: Counter[tuple[str, int]], updates: int, kills: int, seconds: float) -> Account:
    kept = bot.rows(KEPT)
    marked = {int(carried_as) for (carried_as,) in bot.rows("SELECT carried_as FROM parcels WHERE kind <> 'edit' AND state = 'sent'")}
    rounds = bot.rows("SELECT address, round, written FROM parcels WHERE round IS NOT NULL AND kind = 'message'")
    answers = bot.count("SELECT count(*) FROM parcels WHERE round IS NULL AND state = 'sent'")
    arrived = [shown for shown in standin.log if shown.edits == 0]
    unmarked = [shown for shown in arrived if shown.message_id not in marked]
    return Account(
        updates,
        kills,
        standin.faults,
        standin.handed_again,
        sent,
        Counter((name.lower(), minutes) for name, minutes in kept),
        len(arrived),
        sum(shown.text.startswith(PERHAPS_A_REPEAT) for shown in arrived),
        len(unmarked),
        standin.uncertain,
        Counter((address, kind, datetime.fromisoformat(written).astimezone(GHENT).date().isoformat()) for address, kind, written in rounds),
        updates - answers,
        bot.count("SELECT count(*) FROM parcels WHERE state <> 'sent'"),
        seconds,
    )
