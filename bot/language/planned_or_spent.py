"""Whether hours from one time to another are told as spent, or are still to come.

A reply that is understood as hours is a commitment where their day has not come yet: museum tomorrow 13-17. What is
called a "shift" may be either by its words: museum shift sat 13-17.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.language.commitments_said import read_plain_commitment
from bot.language.meaning import AddCommitment, Ask, Log, Meaning
from bot.language.phrase import Phrase
from bot.language.words import ARTICLES, SPENT

PLANNED = frozenset({"shift", "session"})
"""What hours may be called before they are spent as well as after."""


def planned_or_spent(phrase: Phrase, found: Meaning) -> Meaning:
    """Hours of a day to come are not spent yet: with both ends they are a commitment, unless told as spent."""
    if not isinstance(found, Log) or phrase.word(0) in SPENT or any(stint.start is None for stint in found.stints):
        return found
    to_come = any(stint.day > phrase.context.now.date() for stint in found.stints)
    perhaps = not PLANNED.isdisjoint(token.text for token in phrase.tokens)
    start = 1 if phrase.word(0) in ARTICLES else 0
    planned = read_plain_commitment(replace(phrase.part(start), day=None)) if to_come or perhaps else None
    if planned is None:
        return found
    return planned if to_come else _either(planned, found, phrase.context.now.date())


def _either(planned: AddCommitment | Ask, spent: Log, today: date) -> Meaning:
    """What may be either is to come where its weekday comes sooner than it was, else it is asked which.

    A break is told of hours that were, and so is a date that is over.
    """
    days = [choice.day for choice in _choices(planned) if isinstance(choice, AddCommitment) and choice.day is not None]
    if min(days) < today or any(stint.break_minutes for stint in spent.stints):
        return spent
    comes_sooner = max(days) - today < today - max(stint.day for stint in spent.stints)
    return planned if comes_sooner else Ask((*_choices(planned), spent))


def _choices(meaning: Meaning) -> tuple[Meaning, ...]:
    return meaning.choices if isinstance(meaning, Ask) else (meaning,)
