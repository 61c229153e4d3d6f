"""Four workers on one PostgreSQL, one killed each second: nothing lost, nothing twice. The long run is in the benchmarks."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.channels.workers import workers_killed
from tests.databases import ON_A_SERVER, new_server_database

SECONDS, PEOPLE = 12.0, 20


@ON_A_SERVER
@pytest.mark.timeout(240)
def test_workers_that_are_killed_lose_nothing_and_do_nothing_twice(tmp_path: Path) -> None:
    with new_server_database() as url:
        account = workers_killed(tmp_path, url, seconds=SECONDS, people=PEOPLE)
    assert account.kills > SECONDS / 2
    assert account.updates >= PEOPLE
    assert account.out_of_order == ()
    assert set(account.rounds.values()) <= {1}
    # What came without our mark had been sent by a worker that was killed, and said so when it came again.
    assert account.messages - account.parcels == account.unmarked <= account.repeats
    assert account.unsent == 0
