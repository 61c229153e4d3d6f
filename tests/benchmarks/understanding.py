"""How fast replies are understood, beside a general reader of dates on the same dates and lengths, in one run.

    python -m tests.benchmarks.understanding [ROUNDS]

Prints the median time to understand a reply of the tables in ``tests/language/replies``, the median over
everyday dates and lengths for us and for dateparser (https://pypi.org/project/dateparser, settings its
documentation recommends for speed: one language, no absolute-time detour), and the ratio of the two.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable

import dateparser

from bot.language.understand import understand
from tests.language.person import at
from tests.language.table import FOLDER, rows

DATES = (
    "today",
    "yesterday",
    "tomorrow",
    "friday",
    "2 march",
    "march 1st",
    "2026-02-28",
    "28/2/2026",
    "in 3 days",
    "3 days ago",
    "2 weeks ago",
    "next month",
)
LENGTHS = ("2h", "2 hours", "45 minutes", "1 hour 30 minutes", "2h30m", "90 min")


def median_microseconds(read: Callable[[str], object], texts: list[str], rounds: int) -> float:
    """The median over ``texts`` of the best of ``rounds`` readings of each."""
    return statistics.median(min(_microseconds(read, text) for _ in range(rounds)) for text in texts)


def _microseconds(read: Callable[[str], object], text: str) -> float:
    start = time.perf_counter()
    read(text)
    return (time.perf_counter() - start) * 1e6


def main() -> None:
    """Measures and prints."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    context = at()
    replies = [row.reply for path in sorted(FOLDER.glob("*.txt")) for row in rows(path.name)]
    everyday = [f"push 1 to {day}" for day in DATES] + [f"{length} workshop" for length in LENGTHS]
    said = [*DATES, *(f"{length} ago" for length in LENGTHS)]
    ours_all = median_microseconds(lambda text: understand(text, context), replies, rounds)
    ours = median_microseconds(lambda text: understand(text, context), everyday, rounds)
    theirs = median_microseconds(lambda text: dateparser.parse(text, languages=["en"]), said, rounds)
    print(f"{len(replies)} replies: median {ours_all:.0f} microseconds a reply")
    print(f"{len(said)} dates and lengths: ours {ours:.0f}, dateparser {theirs:.0f} microseconds, ratio {theirs / ours:.1f}")


if __name__ == "__main__":
    main()
