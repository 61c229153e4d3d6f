"""Killed again and again amid faults, the real program loses nothing and does nothing twice. The long run is in the benchmarks."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.channels.torture import FAULTY, Account, torture
from tests.databases import ON_A_SERVER, POSTGRESQL, new_url


@pytest.mark.timeout(300)
def test_killed_amid_faults_and_disorder_every_hour_is_kept_once_and_every_message_arrives(tmp_path: Path) -> None:
    demand_kept(torture(tmp_path, updates=60, kills=4, seed=1, patience=120), 60)


@ON_A_SERVER
@pytest.mark.timeout(300)
def test_nor_does_it_on_a_server(tmp_path: Path) -> None:
    with new_url(POSTGRESQL, tmp_path) as url:
        demand_kept(torture(tmp_path, updates=60, kills=4, seed=1, patience=120, url=url), 60)


def demand_kept(account: Account, updates: int) -> None:
    assert account.kept == account.sent
    assert account.unanswered == 0
    assert account.still_owed == 0
    assert set(account.rounds.values()) <= {1}
    # What came without our mark came again, and each time after an answer that was lost or a kill.
    assert account.unmarked <= account.uncertain + account.kills
    assert account.unmarked <= account.repeats
    assert sum(account.faults.values()) > updates * FAULTY / 2
    assert account.handed_again > 0
