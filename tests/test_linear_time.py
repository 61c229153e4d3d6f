"""No reply and no text from outside keeps the house busy: reading takes a time in proportion to the length.

Measured in processor time. Four times the length
takes four times as long if the time is linear, sixteen times if it is
quadratic; what is asked for lies between. No source: our own promise.
"""

from __future__ import annotations

import ast
import importlib
import re
import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from bot.language.understand import LONGEST_TEXT, understand
from tests.language.person import at
from tests.untraced import untraced

ROOT = Path(__file__).resolve().parents[1]
SOURCES = sorted(path.relative_to(ROOT) for top in ("bot", "storage") for path in (ROOT / top).rglob("*.py"))
RUN_ONLY = {"storage.migrations.env"}
MOST_GROWTH = 9.0
TOO_QUICK_TO_TELL = 0.004
"""Seconds; what takes no longer at the greatest length holds nobody up, and its growth cannot be measured."""

REPLIES = (
    *("3h workshop, ", "and ", "9-17 ", "done 1 and ", "push 2 to friday ", "monday ", "every tue and ", "less 30m ", "(", '"a ', "; "),
    *("no, ", "at ", "a week from ", "https://a.", "1.1.", "task ", "in ", "-", "é", "😀", "\n", "for 2h in workshop on ", "the first of "),
)
CALLS = {"compile", "match", "fullmatch", "search", "sub", "split", "findall", "finditer", "subn"}


def seconds(work: Callable[[], object], runs: int) -> float:
    """The least processor time of some runs."""

    def once() -> float:
        with untraced():
            began = time.process_time()
            work()
            return time.process_time() - began

    return min(once() for _ in range(runs))


def demand_linear(work: Callable[[int], Callable[[], object]], length: int) -> None:
    """``work`` makes what is done at a length; at four times the length, the time grows as it should.

    The long one is run once; only where that took too long, again, for something else may have had the processor.
    """
    long = seconds(work(4 * length), 1)
    if long < TOO_QUICK_TO_TELL:
        return
    most = MOST_GROWTH * max(seconds(work(length), 4), TOO_QUICK_TO_TELL / 4)
    assert long < most or seconds(work(4 * length), 3) < most


@pytest.mark.parametrize("piece", REPLIES)
def test_a_long_hostile_reply_is_read_in_linear_time(piece: str) -> None:
    person = at()

    def work(length: int) -> Callable[[], object]:
        text = (piece * length)[:length]
        return lambda: understand(text, person)

    demand_linear(work, LONGEST_TEXT // 4)


Pattern = re.Pattern[str] | re.Pattern[bytes]


@dataclass(frozen=True)
class Used:
    """A pattern of the house, and how it is used: at one place of a text, or looked for all over it."""

    pattern: Pattern
    ways: frozenset[str]

    def on(self, text: str) -> Callable[[], object]:
        """Using it on a text in each of its ways."""
        given: Any = text.encode() if isinstance(self.pattern.pattern, bytes) else text
        anchored = self.ways & {"match", "fullmatch"}
        ways = [getattr(self.pattern, way) for way in anchored] if self.ways == anchored else [lambda text: [*self.pattern.finditer(text)]]
        return lambda: [way(given) for way in ways]


def calls() -> Iterator[tuple[str, str, str | bytes | None]]:
    """Every call of a method that looks for a pattern: of which name, which method, with which pattern written out."""
    for path in SOURCES:
        for node in ast.walk(ast.parse((ROOT / path).read_text("utf-8"))):
            match node:
                case ast.Call(func=ast.Attribute(value=ast.Name(name), attr=way), args=[ast.Constant(str() | bytes() as written), *_]):
                    yield name, way, written
                case ast.Call(func=ast.Attribute(value=ast.Name(name), attr=way)):
                    yield name, way, None


def kept_patterns() -> Iterator[tuple[str, Pattern]]:
    """Every pattern that a module keeps compiled, with its name there."""
    for path in SOURCES:
        module = ".".join(path.with_suffix("").parts).removesuffix(".__init__")
        if module not in RUN_ONLY and module.replace(".", "").replace("_", "").isalnum():
            yield from ((name, each) for name, each in vars(importlib.import_module(module)).items() if isinstance(each, re.Pattern))


def patterns() -> dict[str, Used]:
    """All of them, each once, by what is written in it."""
    ways: dict[str, set[str]] = defaultdict(set)
    written: dict[str | bytes, set[str]] = defaultdict(set)
    for name, way, pattern in calls():
        ways[name].add(way)
        if name == "re" and way in CALLS - {"compile"} and pattern is not None:
            written[pattern].add(way)
    found = {repr(pattern): Used(re.compile(pattern), frozenset(used)) for pattern, used in written.items()}
    for name, kept in kept_patterns():
        found[repr(kept.pattern)] = Used(kept, frozenset(ways[name] & CALLS))
    return found


PATTERNS = patterns()


def pieces_for(pattern: str) -> list[str]:
    """What may make a pattern go back and forth: its own letters, alone and in pairs, and some of every kind."""
    own = dict.fromkeys(char for char in pattern if char not in "()[]{}|?*+^$\\")
    chars = [*list(own)[:12], "a", "0", " ", "\n", ".", "/", ":", "é"]
    return list(dict.fromkeys([*chars, *(first + second for first in chars[:6] for second in ("a", "0", " ", ".", ":"))]))


def test_all_patterns_of_the_house_are_looked_at() -> None:
    assert len(PATTERNS) > 15
    assert any("://" in pattern for pattern in PATTERNS)
    assert {"match", "fullmatch", "finditer"} <= {way for used in PATTERNS.values() for way in used.ways}


@pytest.mark.parametrize("written", PATTERNS, ids=lambda written: written[:40])
def test_no_pattern_goes_back_and_forth(written: str) -> None:
    used = PATTERNS[written]
    for piece in pieces_for(written):
        demand_linear(lambda length, piece=piece: used.on((piece * length)[:length] + "\0"), 1_000)  # type: ignore[misc]


def test_the_measure_itself_notices() -> None:
    with pytest.raises(AssertionError):
        demand_linear(lambda length: lambda: re.search(r"a*a*b", "a" * length), 200)
