"""What an unknown reply is answered with."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.meaning import Unknown
from bot.language.near import DAILY, EXAMPLES
from bot.language.understand import understand
from tests.language.person import at, clocked_in


def _near(text: str) -> tuple[str, ...]:
    meaning = understand(text, at())
    assert isinstance(meaning, Unknown), meaning
    return meaning.near


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("psuh 2", "push 2"),
        ("doen 1", "done 1"),
        ("the workshop took 2h", "2h workshop"),
        ("2h hammock", "2h workshop"),
        ("museum stock count 9-12", "9-12 museum - stock count"),
        ("udno", "undo"),
        ("setings", "settings"),
        ("tsak call Ann", "task call Ann"),
        ("cancle dentist", "cancel dentist"),
    ],
)
def test_the_nearest_reply_comes_first(text: str, first: str) -> None:
    assert _near(text)[0] == first


@given(st.text(max_size=60))
def test_there_are_at_most_three_and_every_one_of_them_is_understood(text: str) -> None:
    meaning = understand(text, clocked_in())
    if isinstance(meaning, Unknown):
        assert len(meaning.near) <= 3
        assert not any(isinstance(understand(reply, clocked_in()), Unknown) for reply in meaning.near)


def test_a_reply_like_nothing_gets_everyday_replies() -> None:
    assert _near("the weather was lovely and we laughed a lot") == ("2h workshop", "done 1", "task call Ann")


def test_every_everyday_reply_is_understood() -> None:
    for example in EXAMPLES + DAILY:
        assert not isinstance(understand(example.format(category="museum"), at()), Unknown), example
