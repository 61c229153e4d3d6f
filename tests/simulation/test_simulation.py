"""Two hundred simulated lives keep every promise, and five broken programs are found out within as many."""

from __future__ import annotations

from contextlib import AbstractContextManager, nullcontext
from pathlib import Path

import pytest

from bot.channels.script import Say, read_step
from tests.simulation.audit import Broken
from tests.simulation.broken import WAYS, Break
from tests.simulation.fate import TROUBLES
from tests.simulation.life import Life, Outcome
from tests.stage import empty_database

SEEDS, AT_ONCE = 200, 10
FOUND_SOMETHING = (70, 171, 302, 592, 681, 788, 1993)
"""Thorough lives that found out that a morning missed under a clock that ran ahead never came once the clock was right again, and that an
edit sent as a message of its own did not say when it came again; that a clock set ahead gave up what had been tried for minutes; and that
who came to know the bot under a clock that ran ahead got no recap of the week in which it was put right."""

pytestmark = pytest.mark.timeout(600)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One for all lives of this process: on the same file, statements that were compiled once serve all of them."""
    return tmp_path_factory.mktemp("lives")


def live(seed: int, folder: Path, break_it: Break | None = None, *, thorough: bool = False) -> Outcome:
    life = Life(seed, folder, empty_database(folder), thorough=thorough)
    broken: AbstractContextManager[object] = break_it(life) if break_it else nullcontext()
    with broken:
        return life.live()


@pytest.mark.parametrize("first", range(0, SEEDS, AT_ONCE))
def test_whatever_happens_nothing_is_lost_and_nothing_is_done_twice(folder: Path, first: int) -> None:
    for seed in range(first, first + AT_ONCE):
        live(seed, folder)


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__)
def test_a_program_that_is_broken_on_purpose_is_found_out(folder: Path, way: Break) -> None:
    assert caught_by(folder, way) is not None


def caught_by(folder: Path, way: Break) -> int | None:
    """The first seed that finds the break, or None."""
    for seed in range(SEEDS):
        try:
            live(seed, folder, way)
        except Broken:
            return seed
    return None


@pytest.mark.parametrize("seed", FOUND_SOMETHING)
def test_what_a_life_once_found_out_is_mended(folder: Path, seed: int) -> None:
    live(seed, folder, thorough=True)


def test_a_seed_tells_the_same_story_each_time(folder: Path) -> None:
    first, second = (_told(7, folder) for _ in range(2))
    assert first == second


def _told(seed: int, folder: Path) -> tuple[Outcome, str]:
    life = Life(seed, folder, empty_database(folder))
    return life.live(), str(life.story)


def test_a_failing_seed_prints_a_script_that_can_be_rehearsed(folder: Path) -> None:
    seed = caught_by(folder, WAYS[0])
    assert seed is not None
    with pytest.raises(Broken) as caught:
        live(seed, folder, WAYS[0])
    promise, *script = str(caught.value).split("\n")
    steps = [read_step(number, line, folder) for number, line in enumerate(script, 1)]
    assert promise
    assert any(isinstance(step, Say) for step in steps)


def test_a_thorough_life_meets_a_trouble_of_every_kind_of_step(folder: Path) -> None:
    met = sum((live(seed, folder, thorough=True).struck for seed in range(3)), start=live(3, folder, thorough=True).struck)
    assert {step for step, _ in met} == set(TROUBLES)
