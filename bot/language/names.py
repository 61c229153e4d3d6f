"""Categories as replies name them: by name, by alias, by section, or with a typing mistake.

call := name | alias | section, one for many ("kid") and many for one
like := the beginning of a call | a call with a slip | most letters of a call, in their order

Whole names are looked up first and cost one lookup a token. Likeness is tried
only where a reply plainly needs a category and names none that is known, so
that ordinary words are not taken for a category they resemble. Likeness is
the optimal string alignment distance (Damerau 1964; restricted form), by rapidfuzz.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from rapidfuzz.distance import OSA, Hamming

from bot.language.context import Named
from bot.language.tokens import Found, Tokens, after_words, text_at, tokenize

SHORTEST_LIKE = 4
"""Shorter words than this are too easily another word."""
SHORTEST_START = 3
LONG = 9
MOST_OF_IT = 2 / 3
"""More than this share of a word's letters, in their order, are a short way to write it: wkshop. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Names:
    """What the categories may be called.

    ``starts`` maps a first word to the calls that begin with it, longest
    first; a call is all its words and the categories it may mean. ``single``
    are the calls of one word, for likeness.
    """

    starts: dict[str, tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]]
    single: tuple[tuple[str, str], ...]


@lru_cache(maxsize=64)
def names_known(categories: tuple[Named, ...]) -> Names:
    """Everything these categories may be called; the same object for the same categories."""
    calls: dict[tuple[str, ...], dict[str, None]] = {}
    for category in categories:
        for name in (category.name, *category.aliases):
            calls.setdefault(_words(name), {})[category.name] = None
    for call in list(calls):
        for other in _in_other_number(call):
            calls.setdefault(other, calls[call])
    for section in dict.fromkeys(category.section for category in categories):
        members = dict.fromkeys(category.name for category in categories if category.section == section)
        calls.setdefault(_words(section), members)
    calls.pop((), None)
    return Names(
        _by_first_word(calls),
        tuple((call[0], name) for call, meant in calls.items() if len(call) == 1 and len(meant) == 1 for name in meant),
    )


def _words(call: str) -> tuple[str, ...]:
    return tuple(token.text for token in tokenize(call))


def _in_other_number(call: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """One for many and many for one, so that kid names kids."""
    if len(call) != 1 or len(call[0]) < SHORTEST_LIKE - 1:
        return ()
    word = call[0]
    if word.endswith("s"):
        return ((word[:-1],),) if len(word) >= SHORTEST_LIKE and not word.endswith("ss") else ()
    return ((word + "s",),)


def _by_first_word(
    calls: dict[tuple[str, ...], dict[str, None]],
) -> dict[str, tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]]:
    starts: dict[str, list[tuple[tuple[str, ...], tuple[str, ...]]]] = {}
    for words, meant in sorted(calls.items(), key=lambda call: -len(call[0])):
        starts.setdefault(words[0], []).append((words, tuple(meant)))
    return {first: tuple(found) for first, found in starts.items()}


def read_names(tokens: Tokens, at: int, names: Names) -> Found[tuple[str, ...]] | None:
    """The categories that the longest call at ``at`` may mean: one, or several that share the call."""
    for words, meant in names.starts.get(text_at(tokens, at), ()):
        end = after_words(tokens, at + 1, *words[1:])
        if end is not None:
            return Found(meant, end)
    return None


def alike(word: str, names: Names) -> tuple[str, ...]:
    """The categories whose call ``word`` begins or mistypes, nearest first and only the nearest: one, several as near, or none."""
    if len(word) < SHORTEST_START or not word.isalpha():
        return ()
    begun = dict.fromkeys(name for call, name in names.single if call.startswith(word))
    if begun:
        return tuple(begun)
    return misspelt(word, names)


def misspelt(word: str, names: Names) -> tuple[str, ...]:
    """The categories whose call ``word`` mistypes, the nearest ones only; a mere beginning of a call is none."""
    return _nearest((mistyped(word, call), name) for call, name in names.single) or _shortened(word, names)


def _shortened(word: str, names: Names) -> tuple[str, ...]:
    """The categories of which ``word`` leaves out some letters and has most, the first among them: wkshop, lrning."""
    if len(word) < SHORTEST_LIKE:
        return ()
    return tuple(
        dict.fromkeys(
            name for call, name in names.single if len(word) > MOST_OF_IT * len(call) and word[0] == call[0] and leaves_out(word, call)
        )
    )


def leaves_out(word: str, call: str) -> bool:
    """Whether all letters of ``word`` stand in ``call`` in their order."""
    rest = iter(call)
    return all(letter in rest for letter in word)


def _nearest(distances: Iterable[tuple[int | None, str]]) -> tuple[str, ...]:
    near = [(distance, name) for distance, name in distances if distance is not None]
    least = min((distance for distance, _ in near), default=0)
    return tuple(dict.fromkeys(name for distance, name in near if distance == least))


def mistyped(word: str, meant: str) -> int | None:
    """How many slips turn ``meant`` into ``word``: one, two in a long word, or None when it is likelier another word.

    A slip is a letter left out, put in, changed, or two swapped. In short
    words a changed letter makes another word too often ("bake", "bike"), and
    a first letter is seldom wrong, so neither counts as a slip there.
    """
    if min(len(word), len(meant)) < SHORTEST_LIKE:
        return None
    most = 2 if len(meant) >= LONG else 1
    slips = int(OSA.distance(word, meant, score_cutoff=most))
    if slips > most:
        return None
    changed = len(word) == len(meant) and Hamming.distance(word, meant) == slips
    if changed and (len(meant) <= 5 or word[0] != meant[0]):
        return None
    return slips
