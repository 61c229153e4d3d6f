"""However long and however hostile a text is, reading it takes a time in proportion to its length.

What is counted is how often a reader looks at a token, which is the same on
every machine: per token it may not grow with the text. No source: our own promise.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from bot.language.amounts import read_amount
from bot.language.breaks import read_break
from bot.language.days import read_day
from bot.language.hours import read_hours
from bot.language.moments import read_moment
from bot.language.recurrence import read_rule
from bot.language.tokens import Token, tokenize
from tests.language.person import at

HOSTILE = (
    "1 and ",
    "half ",
    "a week from ",
    "2 weeks after ",
    "9-",
    "twenty ",
    "1h ",
    "the ",
    "next ",
    "monday ",
    "2/",
    "at ",
    "a ",
    "1:",
    "every ",
    "mon and ",
    "first and ",
    "first friday and ",
    "the day after ",
    "less 30m ",
    "a hundred and ",
    "for ",
    "- ",
    "(",
    ", ",
    "'",
    "in 1 day on ",
    "1,",
    "1.",
    "3rd of ",
    "march ",
    "end of ",
    "from 9 to ",
    "9 to 5 for ",
    "monday the ",
    "1d 1h 1m 1s ",
    "every day except ",
    "½",
    "24:00:",
)
LENGTHS = (30, 120)


class Counted(tuple[Token, ...]):
    """Tokens that count how often they are looked at."""

    looks = 0

    def __getitem__(self, key: Any) -> Any:
        Counted.looks += len(range(*key.indices(len(self)))) if isinstance(key, slice) else 1
        return super().__getitem__(key)


def read_everything(tokens: tuple[Token, ...]) -> None:
    readers: tuple[Callable[[int], object], ...] = (
        lambda place: read_amount(tokens, place),
        lambda place: read_break(tokens, place),
        lambda place: read_hours(tokens, place, at(), "back"),
        lambda place: read_day(tokens, place, at(), "back"),
        lambda place: read_day(tokens, place, at(), "forward", alone=True),
        lambda place: read_moment(tokens, place, at(), "forward"),
        lambda place: read_rule(tokens, place, at()),
    )
    for place in range(len(tokens)):
        for read in readers:
            read(place)


def looks_per_token(text: str) -> float:
    tokens = Counted(tokenize(text))
    Counted.looks = 0
    read_everything(tokens)
    return Counted.looks / len(tokens)


@pytest.mark.parametrize("piece", HOSTILE)
def test_a_text_of_four_times_the_length_costs_no_more_per_token(piece: str) -> None:
    short, long = (looks_per_token(piece * length) for length in LENGTHS)
    assert long < 1.3 * short + 5


def test_a_very_long_text_is_cut_and_read() -> None:
    tokens = tokenize("1h " * 20_000)
    assert len(tokens) == 40_000
    assert read_amount(tokens, len(tokens) - 2) is not None


def test_numbers_of_thousands_of_digits_are_nobodys_hours() -> None:
    for text in ("9" * 5000 + "h", "1." + "9" * 5000 + "h", "in " + "9" * 400 + " days", "9" * 5000 + "/3"):
        tokens = tokenize(text)
        assert [read_amount(tokens, 0), read_day(tokens, 0, at(), "forward"), read_moment(tokens, 0, at(), "forward")] == [None] * 3
