"""No reply and no text from outside keeps the house busy: reading takes a time in proportion to the length.

Measured in processor time, the least of a few runs. Four times the length
takes four times as long if the time is linear, sixteen times if it is
quadratic; what is asked for lies between. No source: our own promise.
"""

from __future__ import annotations

import ast
import importlib
import re
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from bot.language.understand import LONGEST_TEXT, understand
from tests.language.person import at

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


def seconds(work: Callable[[], object]) -> float:
    """The least processor time of three runs."""

    def once() -> float:
        began = time.process_time()
        work()
        return time.process_time() - began

    return min(once() for _ in range(3))


def demand_linear(work: Callable[[int], Callable[[], object]], lengths: tuple[int, int, int]) -> None:
    """``work`` makes what is done at a length. Both at twice and at four times the length, the time grows as it should."""
    longest = seconds(work(lengths[2]))
    if longest < TOO_QUICK_TO_TELL:
        return
    first, second = (seconds(work(length)) for length in lengths[:2])
    assert longest < MOST_GROWTH * max(first, TOO_QUICK_TO_TELL / 4)
    assert longest < MOST_GROWTH / 2 * max(second, TOO_QUICK_TO_TELL / 2)


@pytest.mark.parametrize("piece", REPLIES)
def test_a_long_hostile_reply_is_read_in_linear_time(piece: str) -> None:
    person = at()

    def work(length: int) -> Callable[[], object]:
        text = (piece * length)[:length]
        return lambda: understand(text, person)

    demand_linear(work, (LONGEST_TEXT // 4, LONGEST_TEXT // 2, LONGEST_TEXT))


def written_patterns() -> Iterator[str | bytes]:
    """Every pattern that is written out where it is used."""
    for path in SOURCES:
        for node in ast.walk(ast.parse((ROOT / path).read_text("utf-8"))):
            match node:
                case ast.Call(func=ast.Attribute(value=ast.Name("re"), attr=called), args=[ast.Constant(str() | bytes() as written), *_]):
                    if called in CALLS:
                        yield written


def compiled_patterns() -> Iterator[re.Pattern[str] | re.Pattern[bytes]]:
    """Every pattern that a module keeps compiled."""
    for path in SOURCES:
        name = ".".join(path.with_suffix("").parts).removesuffix(".__init__")
        if name not in RUN_ONLY and name.replace(".", "").replace("_", "").isalnum():
            yield from (each for each in vars(importlib.import_module(name)).values() if isinstance(each, re.Pattern))


def patterns() -> dict[str | bytes, re.Pattern[str] | re.Pattern[bytes]]:
    """All of them, each once."""
    found: dict[str | bytes, re.Pattern[str] | re.Pattern[bytes]] = {}
    for written in written_patterns():
        found.setdefault(written, re.compile(written))
    for compiled in compiled_patterns():
        found[compiled.pattern] = compiled
    return found


PATTERNS = patterns()


def pieces_for(pattern: str) -> list[str]:
    """What may make a pattern go back and forth: its own letters, alone and in pairs, and some of every kind."""
    own = dict.fromkeys(char for char in pattern if char not in "()[]{}|?*+^$\\")
    chars = [*list(own)[:12], "a", "0", " ", "\n", ".", "/", ":", "é"]
    return list(dict.fromkeys([*chars, *(first + second for first in chars[:6] for second in ("a", "0", " ", ".", ":"))]))


def test_all_patterns_of_the_house_are_looked_at() -> None:
    assert len(PATTERNS) > 15
    assert any("://" in str(pattern) for pattern in PATTERNS)


@pytest.mark.parametrize("written", PATTERNS, ids=lambda written: repr(written)[:40])
def test_no_pattern_goes_back_and_forth(written: str | bytes) -> None:
    plain = written if isinstance(written, str) else written.decode("latin-1")
    for piece in pieces_for(plain):
        demand_linear(lambda length, piece=piece: searching(written, piece, length), (1_000, 2_000, 4_000))  # type: ignore[misc]


def searching(written: str | bytes, piece: str, length: int) -> Callable[[], object]:
    """Looking for the pattern in so many characters of the piece, with an end that spoils a match."""
    pattern = PATTERNS[written]
    text = (piece * length)[:length] + "\0"
    return lambda: [*pattern.finditer(text.encode() if isinstance(written, bytes) else text)]  # type: ignore[arg-type]


def test_the_measure_itself_notices() -> None:
    with pytest.raises(AssertionError):
        demand_linear(lambda length: lambda: re.search(r"a+b", "a" * length), (2_000, 4_000, 8_000))
