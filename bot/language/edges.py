"""What stands around a clause and says nothing: courtesy before it, signs behind it."""

from __future__ import annotations

from bot.language.phrase import Phrase
from bot.language.words import COURTESY


def without_courtesy(phrase: Phrase) -> Phrase:
    """Without the polite words that open it."""
    at = 0
    while phrase.word(at) in COURTESY or (at and phrase.word(at) in (",", "!", ".")):
        at += 1
    return phrase.part(at) if at else phrase


def without_faces(phrase: Phrase) -> Phrase:
    """Without the signs beyond letters, figures and ASCII that end it: a smile says nothing of hours."""
    end = len(phrase.tokens)
    while end and phrase.tokens[end - 1].kind == "mark" and not phrase.word(end - 1).isascii():
        end -= 1
    return phrase.part(0, end) if end < len(phrase.tokens) else phrase
