"""Numbers as people write them. No source: common practice."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.numbers import ONES, TENS, read_ordinal, read_quantity, read_whole
from bot.language.tokens import tokenize

WHOLE = {
    "7": 7,
    "seven": 7,
    "nineteen": 19,
    "twenty": 20,
    "twenty one": 21,
    "twenty-one": 21,
    "twenty and four": 24,
    "ninety nine": 99,
    "a hundred": 100,
    "one hundred and twenty": 120,
    "two hundred five": 205,
    "hundred": 100,
}
ORDINALS = {
    "1st": 1,
    "2nd": 2,
    "3rd": 3,
    "22nd": 22,
    "first": 1,
    "twelfth": 12,
    "twentieth": 20,
    "twenty first": 21,
    "twenty-first": 21,
    "thirty-first": 31,
}
QUANTITIES = {
    "2": Fraction(2),
    "2.5": Fraction(5, 2),
    "2,5": Fraction(5, 2),
    ".5": Fraction(1, 2),
    "0.25": Fraction(1, 4),
    "1 1/2": Fraction(3, 2),
    "3/4": Fraction(3, 4),
    "½": Fraction(1, 2),
    "1½": Fraction(3, 2),
    "half": Fraction(1, 2),
    "a half": Fraction(1, 2),
    "a quarter": Fraction(1, 4),
    "three quarters": Fraction(3, 4),
    "two thirds": Fraction(2, 3),
    "two and a half": Fraction(5, 2),
    "three and half": Fraction(7, 2),
    "one and three quarters": Fraction(7, 4),
    "2 and 1/2": Fraction(5, 2),
    "a": Fraction(1),
    "an": Fraction(1),
    "a couple of": Fraction(2),
    "a few": Fraction(3),
    "several": Fraction(7),
}
NOT_WHOLE = ["", "seventh", "hundreds", "h", "½", "1234567890123"]


@pytest.mark.parametrize(("text", "wanted"), WHOLE.items())
def test_whole_numbers(text: str, wanted: int) -> None:
    tokens = tokenize(text)
    found = read_whole(tokens, 0)
    assert found is not None
    assert (found.value, found.end) == (wanted, len(tokens))


@pytest.mark.parametrize("text", NOT_WHOLE)
def test_what_is_no_whole_number(text: str) -> None:
    assert read_whole(tokenize(text), 0) is None


@pytest.mark.parametrize(("text", "wanted"), ORDINALS.items())
def test_places_in_a_row(text: str, wanted: int) -> None:
    tokens = tokenize(text)
    found = read_ordinal(tokens, 0)
    assert found is not None
    assert (found.value, found.end) == (wanted, len(tokens))


def test_a_place_is_written_in_one_piece() -> None:
    assert read_ordinal(tokenize("1 st"), 0) is None


@pytest.mark.parametrize(("text", "wanted"), QUANTITIES.items())
def test_quantities(text: str, wanted: Fraction) -> None:
    tokens = tokenize(text)
    found = read_quantity(tokens, 0)
    assert found is not None
    assert (found.value, found.end) == (wanted, len(tokens))


def test_a_point_at_the_end_of_a_sentence_is_no_decimal_point() -> None:
    found = read_quantity(tokenize("2. 5"), 0)
    assert found is not None
    assert (found.value, found.end) == (2, 1)


@given(st.integers(0, 99))
def test_words_and_digits_say_the_same(value: int) -> None:
    names = {number: word for word, number in {**TENS, **ONES}.items() if word != "fourty"}
    word = names.get(value) or f"{names[value // 10 * 10]}-{names[value % 10]}"
    said, written = read_whole(tokenize(word), 0), read_whole(tokenize(str(value)), 0)
    assert said is not None
    assert written is not None
    assert said.value == written.value == value
