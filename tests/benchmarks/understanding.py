"""How fast replies are understood, beside a general reader of dates on the same dates and lengths, in one run.

    python -m tests.benchmarks.understanding [ROUNDS]

Prints the median time to understand a reply of the tables in ``tests/language/replies``. Then everyday dates and
lengths are read one by one: by us as phrases, by us within whole replies ("push 1 to a week on tuesday"), and by
dateparser as phrases, called plainly, and as its documentation advises for speed, with the language named.

The measure of "so many times faster" is like against like in one run: the same phrases read as phrases, beside
dateparser called plainly, by the sum over all of them (how long the run takes). A reply is more than its phrase:
verb, category, task numbers and everything that it might have been instead are read too, so the ratios of whole
replies are lower, and are printed beside it; and so is the ratio of the medians, which leaves out the phrases that
take dateparser longest. Each figure rests on the best of some rounds.
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


@dataclass(frozen=True, slots=True)
class Times:
    """Microseconds a text: the median over all texts, and the sum."""

    middle: float
    total: float


def microseconds(read: Callable[[str], object], texts: list[str], rounds: int) -> Times:
    """Of the best of ``rounds`` readings of each text."""
    best = [min(_microseconds(read, text) for _ in range(rounds)) for text in texts]
    return Times(statistics.median(best), sum(best))


def _microseconds(read: Callable[[str], object], text: str) -> float:
    start = time.perf_counter()
    read(text)
    return (time.perf_counter() - start) * 1e6


def main() -> None:
    """Measures and prints."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    context = CONTEXT
    replies = [row.reply for path in sorted(FOLDER.glob("*.txt")) for row in rows(path.name)]
    dates, lengths = _phrases(DATES), _phrases(LENGTHS)
    around = [f"push 1 to {day}" for day in dates] + [f"{length} workshop" for length in lengths]
    stand = {**dict.fromkeys(dates, _read_as_day), **dict.fromkeys(lengths, _read_as_length)}
    every = microseconds(lambda text: understand(text, context), replies, rounds)
    alone = microseconds(lambda text: stand[text](text), dates + lengths, rounds)
    whole = microseconds(lambda text: understand(text, context), around, rounds)
    theirs = microseconds(dateparser.parse, dates + lengths, rounds)
    hinted = microseconds(lambda text: dateparser.parse(text, languages=["en"]), dates + lengths, rounds)
    print(f"{len(replies)} replies: median {every.middle:.0f} microseconds a reply")  # noqa: T201
    print(f"{len(dates + lengths)} dates and lengths: {alone.middle:.0f} microseconds alone, {whole.middle:.0f} in a reply")  # noqa: T201
    for name, other in (("dateparser", theirs), ("dateparser told the language", hinted)):
        for what, ours in (("the phrases", alone), ("whole replies", whole)):
            ratios = f"{other.total / ours.total:.1f} times in all, {other.middle / ours.middle:.1f} by the medians"
            print(f"{name} takes {other.middle:.0f} microseconds; {what} are faster {ratios}")  # noqa: T201


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
    main()
