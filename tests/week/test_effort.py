"""What daily acts cost: the page says what the engine says, and nothing costs more than it may."""

from __future__ import annotations

import pytest

from tests.week.effort import ACTS, MOST_CHARACTERS, MOST_TAPS, PAGE, Effort, all_counted, kept_before, page_of


@pytest.fixture(scope="module")
def now() -> dict[str, Effort]:
    return all_counted()


def test_the_page_shows_what_is_counted(now: dict[str, Effort]) -> None:
    assert PAGE.read_text("utf-8") == page_of(kept_before(), now)


def test_no_daily_act_takes_more_than_three_taps_or_twenty_characters(now: dict[str, Effort]) -> None:
    assert {name: each for name, each in now.items() if each.taps > MOST_TAPS or each.characters > MOST_CHARACTERS} == {}


def test_what_took_more_is_halved(now: dict[str, Effort]) -> None:
    above = {name: each for name, each in kept_before().items() if each.too_much}
    assert set(above) == {"log a range with its break", "move an appointment to another day", "move an appointment to a day and time"}
    assert all(2 * now[name].characters <= each.characters for name, each in above.items())


def test_a_way_that_is_as_it_was_costs_what_it_did(now: dict[str, Effort]) -> None:
    same = [act.name for act in ACTS if not act.did]
    assert {name: now[name] for name in same} == {name: kept_before()[name] for name in same}
