"""Notes behind what was logged.

note := ("-" | ":") words | "(" words ")" | ("on" | "for" | "with" | "doing" | "about") words [day]

Where a note begins cannot be told from its mark alone: the dash of 9 - 12 is
none. So the places where one may begin are tried in turn, the first few of
them, and the first one that has complete hours before it holds.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from bot.language.phrase import Phrase
from bot.language.slots import amount_said, day_back

MARKS = frozenset({"-", ":"})
WORDS = frozenset({"on", "for", "with", "doing", "about"})
MOST_TRIED = 4
"""Each try reads the whole reply anew, so a reply of nothing but marks must not be tried at each of them. No source: common practice."""


@dataclass(frozen=True, slots=True)
class Noted:
    """A phrase without its note. ``sure`` tells that the note had a mark; behind a mere word the rest must say it all."""

    phrase: Phrase
    note: str | None
    sure: bool = True


def notes(phrase: Phrase, start: int) -> Iterator[Noted]:
    """Ways to part ``phrase`` from a note that begins at ``start`` or behind it: by marks from left to right, then by words.

    Brackets may also hold a part of what was logged.
    """
    return islice(_all_notes(phrase, start), MOST_TRIED)


def _all_notes(phrase: Phrase, start: int) -> Iterator[Noted]:
    places = range(start, len(phrase.tokens) - 1)
    for at in places:
        word = phrase.word(at)
        if word in MARKS and not (phrase.tokens[at].glued and phrase.tokens[at + 1].glued):
            yield Noted(phrase.part(0, at), phrase.original(at + 1, len(phrase.tokens)))
        elif word == "(":
            yield from _in_brackets(phrase, at)
    for at in places:
        if phrase.word(at) in WORDS:
            yield from _behind_word(phrase, at)


def _in_brackets(phrase: Phrase, at: int) -> Iterator[Noted]:
    close = next((i for i in range(at + 1, len(phrase.tokens)) if phrase.word(i) == ")"), len(phrase.tokens))
    before, behind = phrase.tokens[:at], phrase.tokens[close + 1 :]
    yield Noted(replace(phrase, tokens=before + phrase.tokens[at + 1 : close] + behind), None)
    if any(token.kind == "word" for token in phrase.tokens[at + 1 : close]):  # A mere number may be a break as well.
        yield Noted(replace(phrase, tokens=before + behind), phrase.original(at + 1, close))


def _behind_word(phrase: Phrase, at: int) -> Iterator[Noted]:
    """The note ends where a day ends the reply: 2h workshop on the spokes yesterday. An amount is no note: 9-12 for 5h."""
    if amount_said(phrase, at + 1) is not None:
        return
    last = len(phrase.tokens)
    for day_at in range(at + 2, last):
        day = day_back(phrase, day_at)
        if day is not None and day.end == last:
            yield Noted(replace(phrase, tokens=phrase.tokens[:at] + phrase.tokens[day_at:]), phrase.original(at + 1, day_at), sure=False)
            break
    yield Noted(phrase.part(0, at), phrase.original(at + 1, last), sure=False)
