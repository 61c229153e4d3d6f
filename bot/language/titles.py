"""Titles: what is left of a reply when everything else in it is understood.

title := [joining words] words [joining words] [["at" | "for" | …] ["the"] category] | quotation

A category's own name may stand at the edge of a title ("order spokes workshop",
"for the museum") and is taken off it, unless too little would be left to be a
title: "visit museum" stays whole and belongs to the museum all the same. So
does "fix mum's bike", for "bike" is only another word for the workshop.
"""

from __future__ import annotations

from dataclasses import dataclass

from bot.language.month_names import MONTHS
from bot.language.names import read_names
from bot.language.phrase import QUOTED, Explained, Phrase
from bot.language.tokens import is_number, tokenize
from bot.language.words import ARTICLES, AT_A_CATEGORY, FUNCTION_WORDS

BEFORE_A_TITLE = frozenset(", - : ; . ! to for and of that ( )".split())
BEHIND_A_TITLE = frozenset(", - : ; . ! at on in from by for to and the of @ ( ) with is".split())

INSIDE_A_TITLE = ARTICLES | {"with", "and", "for", "at", "of", "up", "off", "out", "from", "to"}
MOST_TITLE_WORDS = 6
STORY_STARTS = frozenset({"back", "home", "late", "early", "open", "closed", "away", "free", "busy", "still", "gone", "only", "same"})
STORY_ENDS = frozenset("starts start begins ends finishes opens closes started begin end finish".split())
"""Of what is planned already this tells when it is, or will be."""


@dataclass(frozen=True, slots=True)
class Title:
    """``text`` is as typed, empty when nothing was left; ``category`` is the one that its edge names."""

    text: str
    category: str | None = None


def title_of(said: Explained, *, shortest: int = 2) -> Title:
    """The title that the leftovers make; a category is taken off it when ``shortest`` words remain."""
    phrase = said.phrase
    stretches = [trimmed for stretch in _split_at_quotations(said) if (trimmed := _trimmed(phrase, *stretch)) is not None]
    category: str | None = None
    for place in reversed(range(len(stretches))):
        at, end = stretches[place]
        cut, category = _category_at_edge(phrase, at, end, alone=len(stretches) > 1, shortest=shortest)
        if category is not None:
            stretches[place] = (at, cut)
            break
    words = [phrase.original(at, end) for at, end in stretches if at < end]
    return Title(" ".join(words), category)


def _split_at_quotations(said: Explained) -> list[tuple[int, int]]:
    """The stretches of leftovers, with each quotation on its own."""
    runs: list[tuple[int, int]] = []
    for at, end in said.stretches():
        for place in range(at, end):
            alone = said.phrase.word(place) == QUOTED or (runs and said.phrase.word(runs[-1][0]) == QUOTED)
            if runs and runs[-1][1] == place and place > at and not alone:
                runs[-1] = (runs[-1][0], place + 1)
            else:
                runs.append((place, place + 1))
    return runs


def _trimmed(phrase: Phrase, at: int, end: int) -> tuple[int, int] | None:
    """A stretch without the small words that joined it to what stood beside it."""
    while at < end and phrase.word(at) in BEFORE_A_TITLE:
        at += 1
    while at < end and phrase.word(end - 1) in BEHIND_A_TITLE:
        end -= 1
    article_alone = end == at + 1 and phrase.word(at) in ARTICLES
    return (at, end) if at < end and not article_alone else None


def _category_at_edge(phrase: Phrase, at: int, end: int, *, alone: bool, shortest: int) -> tuple[int, str | None]:
    """Where the title ends without the category behind it, and that category; a category before it stays in the title.

    A call that several categories share ("work") names none of them here.
    """
    for start in range(at, end):
        found = read_names(phrase.tokens, start, phrase.names)
        if found is None or found.end != end or len(found.value) > 1:
            continue
        cut = start
        while cut > at and phrase.word(cut - 1) in AT_A_CATEGORY | ARTICLES | BEFORE_A_TITLE:
            cut -= 1
        before = phrase.word(cut - 1)
        enough = cut - at >= shortest and before not in FUNCTION_WORDS and not before.endswith("'s")
        own = [token.text for token in phrase.tokens[start:end]] == [token.text for token in tokenize(found.value[0])]
        return (cut if (enough and own) or (alone and cut == at) else end), found.value[0]
    first = read_names(phrase.tokens, at, phrase.names)
    return end, first.value[0] if first is not None and first.end <= end and len(first.value) == 1 else None


def looks_like_title(said: Explained) -> bool:
    """Whether the leftovers can be what something is called, and are no piece of a story."""
    words = [said.phrase.word(at) for at in said.left]
    words = words[:-1] if words[-1] == "is" else words
    if not words or len(words) > MOST_TITLE_WORDS or words[0] in FUNCTION_WORDS or words[0] in STORY_STARTS or words[0].isdigit():
        return False
    if words[-1] in STORY_ENDS or any(is_no_time(said, at) for at in said.left):
        return False
    if not any(word.isalpha() or word == QUOTED for word in words):
        return False
    return all(word not in FUNCTION_WORDS or word in INSIDE_A_TITLE for word in words)


def is_no_time(said: Explained, at: int) -> bool:
    """Whether a number was left over of a day or time that there is not: 32 march, 29:00."""
    phrase, following = said.phrase, said.phrase.word(at + 1)
    return phrase.tokens[at].kind == "number" and (following in MONTHS or (following == ":" and is_number(phrase.tokens, at + 2)))
