"""A million random and mutated replies, none of which may raise.

    python -m tests.benchmarks.fuzz_replies [REPLIES] [SEED]

Prints its seed first, so that a run can be repeated, and the kinds of meaning it met. A reply that raises
is printed, and the run ends with exit 1.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from dataclasses import replace
from datetime import time as clock

from bot.language.understand import understand
from tests.language.person import at, clocked_in, planning
from tests.language.table import FOLDER, rows

MARKS = "-–:;,./()[]\"'“”?!@#&+*%$\n\t ½¾’０٣é漢🙂\u200b\u0301"
LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789"


def random_reply(chance: random.Random, replies: list[str], words: list[str]) -> str:
    """A jumble of words, a reply with something changed, two replies in one, or noise."""
    kind = chance.randrange(5)
    if kind == 0:
        return " ".join(chance.choices(words, k=chance.randrange(1, 9)))
    if kind == 1:
        return chance.choice((", ", " and ", "\n", "; ", " ")).join(chance.choices(replies, k=2))
    if kind == 2:
        return "".join(chance.choices(MARKS + LETTERS, k=chance.randrange(0, 30)))
    return _changed(chance, chance.choice(replies), changes=chance.randrange(1, 4))


def _changed(chance: random.Random, reply: str, changes: int) -> str:
    """The reply with characters put in, left out, repeated or replaced."""
    for _ in range(changes):
        at_char = chance.randrange(len(reply) + 1)
        put_in = chance.choice((chance.choice(MARKS), chance.choice(LETTERS), str(chance.randrange(10**6)), reply[at_char : at_char + 3]))
        reply = reply[:at_char] + put_in + reply[at_char + chance.randrange(3) :]
    return reply


def main() -> int:
    """Runs, prints, and gives the exit code."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else random.randrange(2**32)
    print(f"{count} replies, seed {seed}", flush=True)  # noqa: T201
    chance = random.Random(seed)
    replies = [row.reply for path in sorted(FOLDER.glob("*.txt")) for row in rows(path.name)]
    words = sorted({word for reply in replies for word in reply.split()})
    contexts = (
        at(),
        clocked_in(),
        planning(("museum", "09:00", "17:00")),
        replace(planning(("museum", "13:00", "17:00")), last_end=clock(11, 30)),
        at("2026-10-25T02:30"),
        at("2026-03-03T00:05", "Pacific/Chatham"),
    )
    kinds: Counter[str] = Counter()
    start = time.perf_counter()
    for number in range(count):
        reply = random_reply(chance, replies, words)
        try:
            kinds[type(understand(reply, contexts[number % len(contexts)])).__name__] += 1
        except Exception as fault:  # noqa: BLE001  # Whatever was raised is what this run is looking for.
            print(f"raised {fault!r} at reply {number}: {reply!r}")  # noqa: T201
            return 1
    print(f"none raised, in {time.perf_counter() - start:.0f} s; {dict(kinds.most_common())}")  # noqa: T201
    return 0


if __name__ == "__main__":
    sys.exit(main())
