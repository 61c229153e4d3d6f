"""2,000 updates, 200 kills, duplicates, disorder and one faulty answer in five: ``python -m tests.benchmarks.torture``."""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

from tests.channels.torture import Account, torture


def main() -> int:
    """Prints the account; gives 1 when a promise was broken."""
    given = _arguments()
    with tempfile.TemporaryDirectory() as folder:
        account = torture(Path(folder), given.updates, given.kills, given.seed, patience=900, url=given.database)
    _tell(account)
    return int(not _is_kept(account))


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--updates", type=int, default=2000)
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--database", metavar="URL", help="one that is empty, on a server; else a file")
    return parser.parse_args()


def _tell(account: Account) -> None:
    say(f"{account.updates} updates, {account.kills} kills, {account.seconds:.0f} s, {account.handed_again} handed out again")
    say(f"faulty answers: {dict(account.faults)}")
    say(f"hours: {account.sent.total()} sent, {account.kept.total()} kept, equal: {account.sent == account.kept}")
    say(f"rounds: {account.rounds.total()}, most of one a day: {max(account.rounds.values(), default=0)}")
    say(f"messages: {account.messages}, not answered: {account.unanswered}, still owed: {account.still_owed}")
    say(f"came without our mark: {account.unmarked}, said to be perhaps a repeat: {account.repeats}")
    say(f"accepted without our learning so: {account.uncertain}")


def _is_kept(account: Account) -> bool:
    once = set(account.rounds.values()) <= {1} and account.unmarked <= account.uncertain + account.kills
    return account.sent == account.kept and once and account.unanswered == 0 and account.still_owed == 0


def say(line: str) -> None:
    """Writes a line at once, for whoever waits for it."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
