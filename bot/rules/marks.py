"""What a person's own words for their commitments say of them: "museum shift" is work for the museum, "choir" is minor."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, fields

NOT_A_LETTER = re.compile(r"[\W_]+")


@dataclass(frozen=True, slots=True)
class Mark:
    """What is said of a commitment; None where nothing is."""

    category_id: int | None = None
    minor: bool | None = None
    outdoors: bool | None = None
    minutes_before: int | None = None
    minutes_after: int | None = None


PARTS = tuple(part.name for part in fields(Mark))


@dataclass(frozen=True, slots=True)
class MarkRule:
    """Titles that hold ``words`` carry ``mark``."""

    words: str
    mark: Mark


def mark(title: str, rules: Iterable[MarkRule]) -> Mark:
    """What the rules say of ``title``.

    A rule holds where its words stand in the title, whole and one after the
    other, whatever their case and accents. Where several speak of the same
    thing, the one with the most words decides, and of those the first.
    """
    said = _words(title)
    holding = [(words, rule.mark) for rule in rules if (words := _words(rule.words)) and _holds(said, words)]
    marks = [each for _, each in sorted(holding, key=lambda pair: -len(pair[0]))]
    return Mark(*(next((said for each in marks if (said := getattr(each, part)) is not None), None) for part in PARTS))


def _words(text: str) -> tuple[str, ...]:
    letters = unicodedata.normalize("NFKD", text.casefold())
    plain = "".join(letter for letter in letters if not unicodedata.combining(letter))
    return tuple(word for word in NOT_A_LETTER.split(plain) if word)


def _holds(said: tuple[str, ...], words: tuple[str, ...]) -> bool:
    return any(said[place : place + len(words)] == words for place in range(len(said) - len(words) + 1))
