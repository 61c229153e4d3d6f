"""Text is cut into words, numbers and marks. No source: common practice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.tokens import tokenize


def texts(text: str) -> list[str]:
    return [token.text for token in tokenize(text)]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("2h30 workshop", ["2", "h", "30", "workshop"]),
        ("9.30-11h", ["9", ".", "30", "-", "11", "h"]),
        ("1½h", ["1", "½", "h"]),
        ("four o'clock", ["four", "o'clock"]),
        ("four o’clock", ["four", "o'clock"]),
        ("9–17", ["9", "-", "17"]),
        ("9—17", ["9", "-", "17"]),
        ("the 1st, please", ["the", "1", "st", ",", "please"]),
        ("TOMORROW", ["tomorrow"]),
        ("٩-１２", ["٩", "-", "12"]),
        ("café", ["café"]),
        ("", []),
        (" \n\t ", []),
    ],
)
def test_text_is_cut_and_folded(text: str, wanted: list[str]) -> None:
    assert texts(text) == wanted


def test_a_fraction_sign_stays_one_number() -> None:
    assert [(token.text, token.kind) for token in tokenize("¾ h")] == [("¾", "number"), ("h", "word")]


def test_glued_tells_what_stood_together() -> None:
    assert [token.glued for token in tokenize("2.5 h")] == [False, True, True, False]


@given(st.text())
def test_every_token_is_where_it_says_and_nothing_but_spaces_lies_between(text: str) -> None:
    at = 0
    for token in tokenize(text):
        assert not text[at : token.start].strip()
        assert token.start < token.end
        assert token.glued == (token.start == at and at > 0)
        at = token.end
    assert not text[at:].strip()


@given(st.text())
def test_cutting_twice_gives_the_same(text: str) -> None:
    assert tokenize(text) == tokenize(text)
