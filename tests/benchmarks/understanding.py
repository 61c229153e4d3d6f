"""How fast replies are understood, beside a general reader of dates on the same dates and lengths, in one run.

    python -m tests.benchmarks.understanding [ROUNDS]

Prints the median time to understand a reply of the tables in ``tests/language/replies``. Then everyday dates and
lengths are read one by one: by us as phrases, by us within whole replies ("push 1 to a week on tuesday"), and by
dateparser as phrases, called plainly, and as its documentation advises for speed, with the language named.

The measure of "so many times faster" is like against like in one run: the same phrases read as phrases, beside
dateparser in both ways, by the sum over all of them (how long the run takes) and by the medians, which leave out
the phrases that take dateparser longest. Below LIMIT by any of the four the run ends with exit 1. A reply is more
than its phrase: verb, category, task numbers and everything that it might have been instead are read too, so the
ratios of whole replies are lower, and are printed beside it. All take turns; each figure rests on the best of some rounds.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass

import dateparser

from bot.language.amounts import read_amount
from bot.language.days import read_day
from bot.language.tokens import tokenize
from bot.language.understand import understand
from tests.language.person import at
from tests.language.table import FOLDER, rows

DATES = """
today | yesterday | tomorrow | the day before yesterday | friday | mon | last fri | next tuesday | 2 march | march 1st | 2/3 |
28/2/2026 | 2026-02-28 | in 3 days | 3 days ago | 2 weeks ago | in two weeks | a week on tuesday | the 20th of next month |
end of the month | next month
"""
LENGTHS = """
2h | 2 h | 2.5h | 2,5h | 2h30 | 2h30m | 2:30 | 150m | half an hour | an hour and a half | two and a half hours | 1 1/2 h | 1½h | ¾h |
a quarter of an hour | 90 minutes | 2 hours ten | 1 hour 30 minutes | 45 min
"""

CONTEXT = at()
LIMIT = 20
"""So many times faster than dateparser our reading of the phrases must be."""


@dataclass(frozen=True, slots=True)
class Times:
    """Microseconds a text: the median over all texts, and the sum."""

    middle: float
    total: float


@dataclass(frozen=True, slots=True)
class Reading:
    """How some texts are read."""

    read: Callable[[str], object]
    texts: list[str]


def in_turns(readings: list[Reading], rounds: int) -> list[Times]:
    """Of each reading the best of ``rounds`` of each text. They take turns, so that what else the machine does befalls all."""
    taken: list[list[list[float]]] = [[] for _ in readings]
    for _ in range(rounds):
        for reading, times in zip(readings, taken, strict=True):
            times.append([_microseconds(reading.read, text) for text in reading.texts])
    best = [[min(each) for each in zip(*times, strict=True)] for times in taken]
    return [Times(statistics.median(each), sum(each)) for each in best]


def _microseconds(read: Callable[[str], object], text: str) -> float:
    start = time.perf_counter()
    read(text)
    return (time.perf_counter() - start) * 1e6


def main() -> int:
    """Measures, prints, and gives the exit code."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    replies = [row.reply for path in sorted(FOLDER.glob("*.txt")) for row in rows(path.name)]
    dates, lengths = _phrases(DATES), _phrases(LENGTHS)
    phrases = dates + lengths
    around = [f"push 1 to {day}" for day in dates] + [f"{length} workshop" for length in lengths]
    stand = {**dict.fromkeys(dates, _read_as_day), **dict.fromkeys(lengths, _read_as_length)}
    readings = [
        Reading(lambda text: understand(text, CONTEXT), replies),
        Reading(lambda text: stand[text](text), phrases),
        Reading(lambda text: understand(text, CONTEXT), around),
        Reading(dateparser.parse, phrases),
        Reading(lambda text: dateparser.parse(text, languages=["en"]), phrases),
    ]
    every, alone, whole, plain, hinted = in_turns(readings, rounds)
    print(f"{len(replies)} replies: median {every.middle:.0f} microseconds a reply")  # noqa: T201
    print(f"{len(phrases)} dates and lengths: {alone.middle:.0f} microseconds alone, {whole.middle:.0f} in a reply")  # noqa: T201
    ratios = [_compared(name, other, alone, whole) for name, other in (("dateparser", plain), ("dateparser told the language", hinted))]
    return int(min(ratios) < LIMIT)


def _compared(name: str, other: Times, alone: Times, whole: Times) -> float:
    """Prints how many times faster we are than the other, and gives the lower ratio of the phrases."""
    for what, ours in (("the phrases", alone), ("whole replies", whole)):
        ratios = f"{other.total / ours.total:.1f} times in all, {other.middle / ours.middle:.1f} by the medians"
        print(f"{name} takes {other.middle:.0f} microseconds; {what} are faster {ratios}")  # noqa: T201
    return min(other.total / alone.total, other.middle / alone.middle)


def _read_as_day(text: str) -> None:
    """Raises where it is not read whole, so that no figure rests on giving up."""
    tokens = tokenize(text)
    found = read_day(tokens, 0, CONTEXT, "back", alone=True)
    assert found is not None, text
    assert found.end == len(tokens), text


def _read_as_length(text: str) -> None:
    tokens = tokenize(text)
    found = read_amount(tokens, 0)
    assert found is not None, text
    assert found.end == len(tokens), text


def _phrases(text: str) -> list[str]:
    return [phrase.strip() for phrase in text.split("|")]


if __name__ == "__main__":
    sys.exit(main())
