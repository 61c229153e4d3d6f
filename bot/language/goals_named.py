"""A goal that is named as one, or by its very title.

named := ["the" | "my"] "goal" [":"] words | ["the" | "my"] words "goal"
"""

from __future__ import annotations

from bot.language.phrase import Phrase
from bot.language.pick import Pick
from bot.language.picks import MOST_WORDS, fits_a_task, fits_an_open_goal
from bot.language.words import ARTICLES

GOAL = frozenset({"goal", "goals"})
ENDINGS = frozenset({".", "!", ","})


def goal_named(phrase: Phrase, *, known_only: bool) -> Pick | None:
    """The goal whose words fill the phrase beside the word for it; with ``known_only`` they must fit one that is open.

    An open task that has the word in its title is meant by it.
    """
    start, end = _bounds(phrase)
    said = [token.text for token in phrase.tokens[start:end]]
    if GOAL.isdisjoint(said) or fits_a_task(said, phrase):
        return None
    if phrase.word(start) in GOAL:
        start += 2 if phrase.word(start + 1) == ":" else 1
    elif phrase.word(end - 1) in GOAL:
        end -= 1
    words = [token.text for token in phrase.tokens[start:end]]
    if not 0 < len(words) <= MOST_WORDS or not GOAL.isdisjoint(words) or (known_only and not fits_an_open_goal(words, phrase)):
        return None
    return Pick(words=phrase.original(start, end), goals=True)


def goal_titled(phrase: Phrase) -> Pick | None:
    """The open goal of the week or the month whose very title fills the phrase."""
    start, end = _bounds(phrase)
    said = phrase.original(start, end).lower() if end > start else ""
    titles = (*phrase.context.week_goals, *phrase.context.goals)
    return Pick(words=phrase.original(start, end)) if said and any(said == title.lower() for title in titles) else None


def _bounds(phrase: Phrase) -> tuple[int, int]:
    """What is left without an article before it and a full stop behind it."""
    start, end = int(phrase.word(0) in ARTICLES), len(phrase.tokens)
    while end > start and phrase.word(end - 1) in ENDINGS:
        end -= 1
    return start, end
