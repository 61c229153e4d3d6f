"""What hours are for that name no category: an open task of today, a routine, a goal of the week, what is fixed today.

It is named by its title or by words that only it has.

spent_on := [("on" | "for" | "with" | …)] [article] words

The words stand in one stretch, and at least one of them carries meaning: "1h spokes", "30 min on the translation".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.language.phrase import Phrase
from bot.language.words import ARTICLES, AT_A_CATEGORY, FUNCTION_WORDS, NO_TITLE


@dataclass(frozen=True, slots=True)
class Purpose:
    """The number of a task; or the title of anything else, which becomes the note of its hours."""

    task: int | None = None
    title: str | None = None


def purpose_of(phrase: Phrase, left: Sequence[int]) -> Purpose | None:
    """The one thing that the tokens at ``left`` name, or None."""
    if not left or list(left) != list(range(left[0], left[-1] + 1)):
        return None
    start = left[0]
    start += phrase.word(start) in AT_A_CATEGORY
    start += phrase.word(start) in ARTICLES
    words = [phrase.word(at) for at in range(start, left[-1] + 1)]
    if all(word in FUNCTION_WORDS or word in NO_TITLE for word in words):
        return None
    return _named(words, _purposes(phrase))


def routine_titled(note: str | None, routines: Sequence[str]) -> str | None:
    """The routine whose very title ``note`` is."""
    return next((title for title in routines if note is not None and title.lower() == note.lower()), None)


def _purposes(phrase: Phrase) -> list[tuple[list[str], Purpose]]:
    tasks = [(title.lower().split(), Purpose(task=number)) for number, title in phrase.context.tasks]
    titles = dict.fromkeys((*phrase.context.routines, *phrase.context.titles))
    known = [title for _, title in phrase.context.tasks]
    return [*tasks, *((title.lower().split(), Purpose(title=title)) for title in titles if title not in known)]


def _named(words: list[str], purposes: list[tuple[list[str], Purpose]]) -> Purpose | None:
    """The first whose title these words are, else the only one whose title has them all."""
    titled = [purpose for title, purpose in purposes if title == words]
    found = titled[:1] or [purpose for title, purpose in purposes if set(words) <= set(title)]
    return found[0] if len(found) == 1 else None
