"""Work in a process of its own: done, failed, died, hung; and nothing of it stays."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Thread

import pytest

from bot.apart import process
from bot.apart.outcomes import Died, NotCarried, TooSlow
from bot.apart.process import Apart
from bot.rounds.steadily import whereabouts
from tests.apart import works

ROOT = Path(__file__).parents[2]


@pytest.fixture
def apart() -> Iterator[Apart]:
    apart = Apart(30)
    yield apart
    apart.close()


def lives(number: int) -> bool:
    """Whether there is such a process; one that ended with all its threads and was not yet asked for how does not count."""
    process = Path(f"/proc/{number}")
    try:
        state = (process / "stat").read_text("utf-8").rpartition(")")[2].split()[0]
        return state != "Z" or len(list((process / "task").iterdir())) > 1
    except OSError:
        return False


def soon(holds: Callable[[], bool], seconds: float = 20.0) -> bool:
    """Whether it comes true."""
    until = time.monotonic() + seconds
    while not holds():
        if time.monotonic() > until:
            return False
        time.sleep(0.01)
    return True


def test_work_is_done_elsewhere_and_one_process_does_one_after_another(apart: Apart) -> None:
    first = apart.run(works.own_number)

    assert first != os.getpid()
    assert apart.run(works.twice, 21) == 42
    assert apart.run(works.own_number) == first


def test_an_error_comes_over_as_what_it_was_with_its_data_and_whence(apart: Apart) -> None:
    with pytest.raises(works.Unready) as caught:
        apart.run(works.refuse, "wheel")

    assert (caught.value.what, caught.value.minutes, str(caught.value)) == ("wheel", 20, "wheel is not ready")
    assert whereabouts(caught.value).startswith("Unready in refuse, line ")
    assert apart.run(works.twice, 1) == 2


def test_leaving_in_the_middle_is_an_error_like_others(apart: Apart) -> None:
    with pytest.raises(SystemExit):
        apart.run(works.leave)
    assert apart.run(works.twice, 2) == 4


def test_a_process_that_dies_is_told_and_the_next_work_gets_a_new_one(apart: Apart) -> None:
    first = apart.run(works.own_number)
    with pytest.raises(Died) as caught:
        apart.run(works.crash)

    assert (caught.value.work, caught.value.code) == ("crash", -signal.SIGSEGV)
    assert apart.run(works.own_number) != first


def test_one_that_died_between_two_works_is_noticed(apart: Apart) -> None:
    first = apart.run(works.own_number)
    os.kill(first, signal.SIGKILL)
    assert soon(lambda: not lives(first))

    assert apart.run(works.twice, 3) == 6


def test_work_that_takes_too_long_is_ended_and_the_next_is_done() -> None:
    apart = Apart(0.3)
    with pytest.raises(TooSlow) as caught:
        apart.run(works.hang)
    assert (caught.value.work, caught.value.seconds) == ("hang", 0.3)

    patient = Apart(30)
    assert patient.run(works.twice, 4) == 8
    patient.close()


def test_what_cannot_be_carried_is_told(apart: Apart) -> None:
    with pytest.raises(NotCarried) as caught:
        apart.run(works.give_what_stays_here)

    assert (caught.value.work, caught.value.kind) == ("give_what_stays_here", "function")
    assert apart.run(works.twice, 5) == 10


def test_what_a_library_prints_does_not_come_between(apart: Apart) -> None:
    assert apart.run(works.say_aloud) == "done"


def test_no_secret_is_told_by_the_environment_or_on_the_command_line(apart: Apart, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WEEKWRIGHT_TOKEN", "1:secret")
    monkeypatch.setenv("LANG", "C.UTF-8")

    assert (apart.run(works.told, "WEEKWRIGHT_TOKEN"), apart.run(works.told, "LANG")) == (None, "C.UTF-8")
    assert apart.run(works.command_line).endswith("-P -m bot.apart.child ")


def test_it_ends_when_nothing_more_is_wanted_and_starts_again_when_something_is() -> None:
    apart = Apart(30, idle_seconds=0.05)
    first = apart.run(works.own_number)
    assert soon(lambda: not lives(first))

    assert apart.run(works.own_number) != first
    apart.close()


def test_what_is_told_to_all_processes_of_a_service_does_not_end_it(apart: Apart) -> None:
    number = apart.run(works.own_number)
    os.kill(number, signal.SIGTERM)
    os.kill(number, signal.SIGINT)

    assert apart.run(works.own_number) == number
    assert os.getpgid(number) != os.getpgid(0)


def test_threads_wait_for_their_turn_and_each_gets_its_own(apart: Apart) -> None:
    got: dict[int, int] = {}

    def ask(number: int) -> None:
        got[number] = apart.run(works.twice, number)

    threads = [Thread(target=ask, args=(number,)) for number in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert got == {number: 2 * number for number in range(8)}


def test_closing_ends_what_is_being_done() -> None:
    apart = Apart(600)
    number = apart.run(works.own_number)
    failures: list[Died] = []

    def ask() -> None:
        with pytest.raises(Died) as caught:
            apart.run(works.hang)
        failures.append(caught.value)

    thread = Thread(target=ask)
    thread.start()
    time.sleep(0.05)
    apart.close()
    thread.join(20)
    assert [failure.work for failure in failures] == ["hang"]
    assert not lives(number)


def test_where_no_process_can_be_started_that_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(process.sys, "executable", "/nowhere/python")  # type: ignore[attr-defined]
    with pytest.raises(Died) as caught:
        Apart().run(works.twice, 1)
    assert caught.value.code is None


PARENT = """
import sys
from threading import Thread
from bot.apart.process import Apart
from tests.apart import works
apart = Apart()
print(apart.run(works.own_number), flush=True)
Thread(target=apart.run, args=(works.hang,)).start()
sys.stdin.read()
"""


def test_it_does_not_outlive_a_parent_that_is_killed_even_in_the_middle_of_work() -> None:
    command = [sys.executable, "-c", PARENT]
    with subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as parent:
        assert parent.stdout is not None
        number = int(parent.stdout.readline())
        assert lives(number)
        parent.kill()
    assert soon(lambda: not lives(number))
