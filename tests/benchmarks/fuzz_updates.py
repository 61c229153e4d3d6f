"""100,000 hostile updates: ``python -m tests.benchmarks.fuzz_updates [UPDATES] [FIRST_SEED] [FOLDER]``."""

from __future__ import annotations

import argparse
import logging
import sys
import tempfile
import traceback
import zoneinfo
from pathlib import Path

from tests.engine.ordeal import endure

AT_ONCE = 500
"""Updates that one database hears, so that hundreds of adversaries have their turn."""


def main() -> int:
    """Prints each seed that was too much, and gives 1 then."""
    zoneinfo.reset_tzpath(to=[])
    logging.disable(logging.CRITICAL)
    given = _arguments()
    messages, failed = 0, 0
    for seed in range(given.first, given.first + given.updates // AT_ONCE):
        with tempfile.TemporaryDirectory(dir=given.folder) as folder:
            try:
                messages += endure(Path(folder), seed, AT_ONCE)
            except Exception:  # noqa: BLE001  # Whatever it is, it is what we look for.
                failed += 1
                say(f"seed {seed}\n{traceback.format_exc(limit=-6)}")
    say(f"{given.updates} updates, {messages} messages, {failed} of {given.updates // AT_ONCE} seeds failed")
    return int(failed > 0)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("updates", type=int, nargs="?", default=100_000)
    parser.add_argument("first", type=int, nargs="?", default=0)
    parser.add_argument("folder", nargs="?")
    return parser.parse_args()


def say(line: str) -> None:
    """Writes a line at once, for whoever waits for it."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
