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
from bot.language.weekdays import every_week
from bot.language.words import ARTICLES, SPENT

PLANNED = frozenset({"shift", "session"})
"""What hours may be called before they are spent as well as after."""


def planned_or_spent(phrase: Phrase, found: Meaning) -> Meaning:
    """Hours of a day to come are not spent yet, and those of every week never are: with both ends they are a commitment.

    Only what is told as spent is hours whatever its days.
    """
    if phrase.word(0) in SPENT or not all(isinstance(each, Log) and _is_timed(each) for each in _choices(found)):
        return found
    plain = replace(phrase.part(1 if phrase.word(0) in ARTICLES else 0), day=None)
    if every_week(phrase.tokens) and not _has_breaks(_choices(found)):
        return read_plain_commitment(plain) or found
    if not isinstance(found, Log):
        return found
    to_come = any(stint.day > phrase.context.now.date() for stint in found.stints)
    perhaps = not PLANNED.isdisjoint(token.text for token in phrase.tokens)
    planned = read_plain_commitment(plain) if to_come or perhaps else None
    if planned is None:
        return found
    return planned if to_come else _either(planned, found, phrase.context.now.date())


def _is_timed(log: Log) -> bool:
    return all(stint.start is not None for stint in log.stints)


def _has_breaks(logs: tuple[Meaning, ...]) -> bool:
    """A break is told of hours that were."""
    return any(stint.break_minutes for log in logs if isinstance(log, Log) for stint in log.stints)


def _either(planned: AddCommitment | Ask, spent: Log, today: date) -> Meaning:
    """What may be either is to come where its weekday comes sooner than it was, else it is asked which.

    Hours with a break were spent, and so were those of a date that is over.
    """
    days = [choice.day for choice in _choices(planned) if isinstance(choice, AddCommitment) and choice.day is not None]
    if min(days) < today or _has_breaks((spent,)):
        return spent
    comes_sooner = max(days) - today < today - max(stint.day for stint in spent.stints)
    return planned if comes_sooner else Ask((*_choices(planned), spent))


def _choices(meaning: Meaning) -> tuple[Meaning, ...]:
    return meaning.choices if isinstance(meaning, Ask) else (meaning,)
