"""Routines, targets and categories that are to end, or to be called otherwise.

routine := ("drop" | "remove" | …) "routine" (number | words)
target  := ("no" | "drop" | "remove" | …) "target" ["for"] category
dropped := ("drop" | "remove" | …) "category" category
renamed := ("rename" | "call") ["category"] category ("to" | "into" | "as") name
"""

from __future__ import annotations

from bot.language.meaning import Ask
from bot.language.numbers import digits_at
from bot.language.phrase import Phrase, opened_by
from bot.language.slots import called
from bot.language.standing_meaning import DropCategory, DropRoutine, DropTarget, RenameCategory
from bot.language.words import ARTICLES

_VERBS = ("drop", "remove", "delete", "end", "stop", "cancel", "forget", "no", "no more")


def _ways(what: str) -> str:
    return " | ".join(f"{verb} {middle}{what}" for verb in _VERBS for middle in ("", "the ", "my "))


ROUTINE = opened_by(f"{_ways('routine')} | {_ways('routines')}")
TARGET = opened_by(f"{_ways('target')} | {_ways('targets')}")
CATEGORY = opened_by(_ways("category"))
RENAME = opened_by("rename category | rename the category | rename the | rename my | rename")
MOST_WORDS = 6
ENDINGS = (".", "!", "please")


def read_drop_routine(phrase: Phrase) -> DropRoutine | None:
    """A routine to end, by its number in the list or by words."""
    start, end = ROUTINE(phrase), _end(phrase)
    if not start:
        return None
    while phrase.word(start) in ARTICLES or phrase.word(start) in ("for", "of", "number", "#"):
        start += 1
    number = digits_at(phrase.tokens, start)
    if number is not None and end == start + 1:
        return DropRoutine(None, number)
    return DropRoutine(phrase.original(start, end)) if 0 < end - start <= MOST_WORDS else None


def read_drop_target(phrase: Phrase) -> DropTarget | Ask | None:
    """A category of which no hours a week are wanted any more."""
    start = TARGET(phrase)
    if not start:
        return None
    at = start + 1 if phrase.word(start) in ("for", "of", "on", "in") else start
    found = called(phrase, at)
    if found is None or found.end != _end(phrase):
        return None
    choices = tuple(DropTarget(name) for name in found.value.names)
    return choices[0] if len(choices) == 1 else Ask(choices)


def read_drop_category(phrase: Phrase) -> DropCategory | Ask | None:
    """A category that is taken away."""
    start = CATEGORY(phrase)
    found = called(phrase, start) if start else None
    if found is None or found.end != _end(phrase):
        return None
    choices = tuple(DropCategory(name) for name in found.value.names)
    return choices[0] if len(choices) == 1 else Ask(choices)


def read_rename(phrase: Phrase) -> RenameCategory | Ask | None:
    """A category and its new name, as typed."""
    start, end = RENAME(phrase), _end(phrase)
    found = called(phrase, start) if start else None
    if found is None or phrase.word(found.end) not in ("to", "into", "as") or not 0 < end - found.end - 1 <= MOST_WORDS:
        return None
    new = phrase.original(found.end + 1, end)
    choices = tuple(RenameCategory(name, new) for name in found.value.names)
    return choices[0] if len(choices) == 1 else Ask(choices)


def _end(phrase: Phrase) -> int:
    end = len(phrase.tokens)
    while end and phrase.word(end - 1) in ENDINGS:
        end -= 1
    return end
