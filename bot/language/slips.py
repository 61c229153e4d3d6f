"""Typing mistakes that are set right before anything is read: a day's name, and a job's in front of "shift".

slip := a word in "day" one slip from a weekday's name (two in wednesday's) | a word like one category's name before "shift"

Both are words that nothing else fits: what reads as a day, a category or a small word is left as it is, and so is all
between quotes and in links.
"""

from __future__ import annotations

from bot.language.context import Context
from bot.language.names import Names, misspelt, mistyped
from bot.language.phrase import Phrase, phrase_of
from bot.language.relative_days import DAY_WORDS
from bot.language.weekdays import WEEKDAYS
from bot.language.words import ARTICLES, FUNCTION_WORDS

SHIFTS = frozenset({"shift", "shifts"})
DAYS = tuple(name for name in WEEKDAYS if name.endswith("day"))
KNOWN = frozenset(WEEKDAYS) | DAY_WORDS | ARTICLES | FUNCTION_WORDS


def set_right(text: str, context: Context) -> Phrase:
    """The phrase of ``text``, with such mistakes set right. Takes time linear in its length."""
    phrase = phrase_of(text, context)
    if "day" not in text.lower() and "shift" not in text.lower():
        return phrase
    slips = {} if "://" in text else {at: right for at in range(len(phrase.tokens)) if (right := _right(phrase, at)) is not None}
    for at, right in reversed(slips.items()):
        text = text[: phrase.tokens[at].start] + right + text[phrase.tokens[at].end :]
    return phrase_of(text, context) if slips else phrase


def _right(phrase: Phrase, at: int) -> str | None:
    """What the word at ``at`` should be; None where it is right, or nobody knows."""
    word = phrase.word(at)
    if word in KNOWN or word in phrase.names.starts or phrase.tokens[at].kind != "word":
        return None
    if word.endswith("day"):
        return next((day for day in DAYS if mistyped(word, day) is not None), None)
    return _job(word, phrase.names) if phrase.word(at + 1) in SHIFTS else None


def _job(word: str, names: Names) -> str | None:
    found = misspelt(word, names)
    return found[0] if len(found) == 1 else None
