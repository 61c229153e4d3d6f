"""Many simulated lives, each with a trouble of every kind of step: ``python -m tests.benchmarks.many_lives FIRST LAST [FOLDER]``.

Prints each seed that breaks a promise, with its story, and at the end what all of them met.
"""

from __future__ import annotations

import argparse
import logging
import sys
import tempfile
import time
import zoneinfo
from collections import Counter
from pathlib import Path

from tests.simulation.audit import Broken
from tests.simulation.fate import EVERY_KIND
from tests.simulation.life import Life, Outcome
from tests.stage import empty_database


def main() -> int:
    """Gives 1 when a seed broke a promise."""
    zoneinfo.reset_tzpath(to=[])
    logging.disable(logging.CRITICAL)
    given = _arguments()
    began, broken, lives = time.monotonic(), 0, list[Outcome]()
    with tempfile.TemporaryDirectory(dir=given.folder) as folder:
        for seed in range(given.first, given.last):
            try:
                lives.append(Life(seed, Path(folder), empty_database(Path(folder)), thorough=True).live())
            except Broken as promise:
                broken += 1
                say(f"seed {seed}: {promise}")
            if (seed + 1) % 100 == 0:
                say(f"{seed + 1 - given.first} lives, {broken} broken, {time.monotonic() - began:.0f} s")
    _tell(lives, broken)
    return int(broken > 0)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("first", type=int)
    parser.add_argument("last", type=int)
    parser.add_argument("folder", nargs="?", help="where the databases are; memory is quickest")
    return parser.parse_args()


def _tell(lives: list[Outcome], broken: int) -> None:
    met = sum((life.struck for life in lives), start=Counter())
    say(f"{len(lives)} lives kept every promise, {broken} did not")
    say(f"{sum(life.days for life in lives):.0f} days, {sum(life.updates for life in lives)} updates")
    say(f"{sum(life.handed_again for life in lives)} updates handed out again, {sum(life.messages for life in lives)} messages")
    say(f"{sum(life.repeats for life in lives)} messages came more than once, each after a try of unknown end")
    for step, trouble in EVERY_KIND:
        say(f"  {step}, {trouble}: {met[step, trouble]}")


def say(line: str) -> None:
    """Writes a line at once, for whoever waits for it."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
