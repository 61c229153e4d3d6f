"""The far end of a benchmark: the Bot API stand-in and the people who write, in a process of their own.

Started as ``python -m tests.benchmarks.far_end`` it prints where it serves,
then reads one order a line from standard input and answers each with one
line. ``FarEnd`` is its other side.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tests.channels.standin import TOKEN, StandIn

ROOT = Path(__file__).resolve().parents[2]
FIRST_PERSON = 1001
LONGEST_SECONDS = 300.0


class FarEnd:
    """As a context it serves until the end."""

    def __init__(self) -> None:
        self.token = TOKEN
        self.url = ""

    def __enter__(self) -> FarEnd:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.benchmarks.far_end"], cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )
        self.url = self._read()
        return self

    def __exit__(self, *_: object) -> None:
        assert self._process.stdin is not None
        self._process.stdin.close()
        self._process.wait(20)

    def wait_for_a_poll(self) -> None:
        """Waits until the program asks for updates."""
        self._order("poll")

    def at_once(self, people: int, texts: Sequence[str]) -> float:
        """Each of so many people writes all the texts, in turns, waiting for nothing; the seconds until the last answer was there."""
        seconds: float = self._order("at_once", people, list(texts))
        return seconds

    def one_by_one(self, people: int, texts: Sequence[str]) -> list[float]:
        """The same, but nobody writes before the answer to the message before is there; the seconds of each answer."""
        seconds: list[float] = self._order("one_by_one", people, list(texts))
        return seconds

    def _order(self, *order: object) -> Any:
        assert self._process.stdin is not None
        self._process.stdin.write(json.dumps(order) + "\n")
        self._process.stdin.flush()
        return self._read()

    def _read(self) -> Any:
        assert self._process.stdout is not None
        return json.loads(self._process.stdout.readline())


class Crowd:
    """The people at the far end."""

    def __init__(self, standin: StandIn) -> None:
        self._standin = standin

    def poll(self) -> None:
        """Waits for the first poll."""
        self._standin.wait_for(lambda: any(call.method == "getupdates" for call in self._standin.calls), LONGEST_SECONDS)

    def at_once(self, people: int, texts: Sequence[str]) -> float:
        """As ``FarEnd.at_once``."""
        wanted = len(self._standin.log) + people * len(texts)
        began = time.perf_counter()
        for text in texts:
            for person in range(FIRST_PERSON, FIRST_PERSON + people):
                self._standin.say(text, person)
        self._standin.wait_for(lambda: len(self._standin.log) >= wanted, LONGEST_SECONDS)
        return time.perf_counter() - began

    def one_by_one(self, people: int, texts: Sequence[str]) -> list[float]:
        """As ``FarEnd.one_by_one``."""
        seconds = []
        for text in texts:
            for person in range(FIRST_PERSON, FIRST_PERSON + people):
                wanted, began = len(self._standin.log) + 1, time.perf_counter()
                self._standin.say(text, person)
                self._standin.wait_for(lambda wanted=wanted: len(self._standin.log) >= wanted, LONGEST_SECONDS)  # type: ignore[misc]
                seconds.append(time.perf_counter() - began)
                # What a program still does after an answer is not a part of it.
                time.sleep(0.01)
        return seconds


def main() -> None:
    """Serves until standard input ends."""
    with StandIn(first_update=int(time.time())) as standin:
        crowd = Crowd(standin)
        _print(standin.url)
        for line in sys.stdin:
            name, *given = json.loads(line)
            _print(getattr(crowd, name)(*given))


def _print(value: object) -> None:
    sys.stdout.write(json.dumps(value) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
