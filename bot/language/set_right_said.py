"""Commitments that are there already and take place at another time than was thought.

set_right := words "is" ["now"] moment ["now" | "instead"] | words moment ("now" | "instead")

With a day it is that day's commitment of these words, or a new one where there
is none. Without one "now" or "instead" must be said, and the next is meant.
"""

from __future__ import annotations

from dataclasses import replace

from bot.language.commitments_said import read_plain_commitment
from bot.language.meaning import AddCommitment, Ask, Move
from bot.language.phrase import Phrase
from bot.language.slots import moment_ahead
from bot.language.words import ARTICLES, FUNCTION_WORDS

ENDINGS = frozenset({"now", "instead"})
MOST_WORDS = 5


def read_set_right(phrase: Phrase) -> AddCommitment | Move | Ask | None:
    """nursery shift is 9-5 this saturday; dinner saturday at 8 instead; lunch with Ann is at 1 now."""
    words = [token.text for token in phrase.tokens]
    ended = len(words) > 2 and words[-1] in ENDINGS
    is_at = next((at for at in range(1, len(words) - 1) if words[at] == "is"), None)
    if (is_at is None and not ended) or words[0] in FUNCTION_WORDS - ARTICLES:
        return None
    left = phrase.tokens[:-1] if ended else phrase.tokens
    if is_at is not None:
        behind = is_at + 2 if words[is_at + 1] == "now" else is_at + 1
        left = (*left[:is_at], *left[behind:])
        ended = ended or behind == is_at + 2
    plain = replace(phrase, tokens=left)
    added = read_plain_commitment(plain)
    choices = added.choices if isinstance(added, Ask) else (added,)
    told = tuple(replace(each, instead=True) for each in choices if isinstance(each, AddCommitment) and each.rule is None)
    if added is not None:
        return None if len(told) < len(choices) else told[0] if len(told) == 1 else Ask(told)
    return _next_one(plain, is_at) if ended and is_at is not None else None


def _next_one(phrase: Phrase, at: int) -> Move | None:
    """The next commitment that the words up to ``at`` name, at the time behind them."""
    moment = moment_ahead(phrase, at)
    start = 1 if phrase.word(0) in ARTICLES else 0
    if moment is None or moment.end < len(phrase.tokens) or moment.value.start is None or not start < at <= start + MOST_WORDS:
        return None
    return Move(phrase.original(start, at), None, moment.value.start, moment.value.end)
