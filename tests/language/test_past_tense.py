"""What a verb is in its plain form. Regular spelling: common practice, no source; irregular forms from memory."""

from __future__ import annotations

import pytest

from bot.language.past_tense import IRREGULAR, plain_forms


@pytest.mark.parametrize(
    ("past", "plain"),
    [
        ("called", "call"),
        ("moved", "move"),
        ("tidied", "tidy"),
        ("planned", "plan"),
        ("freed", "free"),
        ("bought", "buy"),
        ("written", "write"),
        ("paid", "pay"),
    ],
)
def test_the_verb_is_among_its_plain_forms(past: str, plain: str) -> None:
    assert plain in plain_forms(past)


@pytest.mark.parametrize("word", ["call", "red", "bed", "wheels", "", "put", "read"])
def test_what_looks_like_no_past_has_none(word: str) -> None:
    assert plain_forms(word) == frozenset()


def test_no_irregular_form_is_a_plain_one() -> None:
    assert IRREGULAR.keys().isdisjoint(IRREGULAR.values())
