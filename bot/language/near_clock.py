"""Replies about the clock that are near to one that was not understood.

A time alone does not say whether it is a beginning or an end. A word of coming
or going does; where there is none, but a category, both are offered.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.language.clock import read_spoken
from bot.language.numbers import digits_at
from bot.language.phrase import Explained, Phrase, explain
from bot.language.slots import Called, Clock, called
from bot.language.times_of_day import as_time
from bot.language.tokens import Found
from bot.language.words import FUNCTION_WORDS

COMING = frozenset("from since start started starting arrived arrive there here now in".split())
GOING = frozenset("home off left leaving leave until till til out stopped stop ended end finished over done".split())
AT = frozenset({"at", "by", "@", "until", "till", "til", "from", "since"})
PASSED_OVER = COMING | GOING | FUNCTION_WORDS | {"came", "got", "went", "work", "working", ",", ".", "!"}


def as_clock(phrase: Phrase) -> Iterator[str]:
    """in museum 13:00, out 17:00: with the category and the time that were said."""
    said = explain(phrase, (called, _time_said))
    calls = [piece for piece in said.pieces if isinstance(piece.value, Called) and phrase.word(piece.at) not in GOING]
    clocks = [piece for piece in said.pieces if isinstance(piece.value, Clock)]
    words = [token.text for token in phrase.tokens]
    comes, goes = not COMING.isdisjoint(words), not GOING.isdisjoint(words)
    if max(len(clocks), len(calls)) > 1 or any(word not in PASSED_OVER for word in map(phrase.word, said.left)):
        return
    if not (calls or ((comes or goes) and clocks)) or not (clocks or "now" in words):
        return
    category = next((piece.value.names[0] for piece in calls if isinstance(piece.value, Called)), "")
    when = _as_typed(said, clocks[0].at, clocks[0].end) if clocks else ""
    if not goes:
        yield " ".join(f"in {category} {when}".split())
    if not comes:
        yield " ".join(f"out {category} {when}".split())


def _time_said(phrase: Phrase, at: int) -> Found[Clock] | None:
    """[at | by | …] time; a number that no clock shows is none."""
    found = read_spoken(phrase.tokens, at + 1 if phrase.word(at) in AT else at)
    return Found(Clock(as_time(found.value.minute)), found.end) if found else None


def _as_typed(said: Explained, at: int, end: int) -> str:
    start = at if digits_at(said.phrase.tokens, at) is not None or said.phrase.word(at) not in AT else at + 1
    return said.phrase.original(start, end)
