"""Four workers on one PostgreSQL, one killed each second for a minute: ``python -m tests.benchmarks.workers``.

WEEKWRIGHT_TEST_POSTGRESQL names the server, as in the tests.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

from tests.channels.workers import Account, workers_killed
from tests.databases import SERVER, new_server_database


def main() -> int:
    """Prints the account; gives 1 when a promise was broken."""
    given = _arguments()
    if not SERVER:
        sys.exit("WEEKWRIGHT_TEST_POSTGRESQL names no PostgreSQL server")
    with tempfile.TemporaryDirectory() as folder, new_server_database() as url:
        account = workers_killed(Path(folder), url, seconds=given.seconds, people=given.people, number=given.workers, seed=given.seed)
    _tell(account)
    return int(not account.is_kept)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=60)
    parser.add_argument("--people", type=int, default=40)
    parser.add_argument("--workers", type=int, default=4)
    parser.add_argument("--seed", type=int, default=1)
    return parser.parse_args()


def _tell(account: Account) -> None:
    say(f"{account.updates} updates, {account.to_two} of them to two workers at once; {account.kills} kills; {account.seconds:.0f} s")
    say(f"posted again because a worker was gone: {account.posted_again}")
    say(f"people whose hours are not just theirs, in their order: {list(account.out_of_order) or 'nobody'}")
    say(f"rounds: {account.rounds.total()}, most of one a day: {max(account.rounds.values(), default=0)}")
    say(f"messages: {account.parcels} owed and sent, {account.messages} arrived, not sent: {account.unsent}")
    say(f"arrived without our mark: {account.unmarked}, said to be perhaps a repeat: {account.repeats}")
    say("kept" if account.is_kept else "NOT kept")


def say(line: str) -> None:
    """Writes a line at once, for whoever waits for it."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
