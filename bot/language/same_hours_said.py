"""Hours told by those of a day before: same as yesterday, museum same as monday.

same := ["today"] [category] ("same as" | "the same as" | "same hours as" | …) day [category]
"""

from __future__ import annotations

from bot.language.meaning import Ask
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.plan_meaning import SameHours
from bot.language.slots import Called, called, day_back
from bot.language.words import CLOSERS

SAME_WORDS = frozenset({"same"})
SAME = opened_by("same as | the same as | same hours as | the same hours as | same again as")
BEFORE = frozenset({"today", ",", ":", "-", "was", "is"})


def read_same_hours(phrase: Phrase) -> SameHours | Ask | None:
    """The day whose hours are those of today, and the category where one is named; None for anything more and for a day to come."""
    at = next((at for at in range(len(phrase.tokens)) if SAME(phrase, at)), None)
    day = day_back(phrase, at + SAME(phrase, at)) if at is not None else None
    if at is None or day is None or day.value >= phrase.context.now.date():
        return None
    before, behind = explain(phrase.part(0, at), (called,)), explain(phrase.part(day.end), (called,))
    calls = before.all(Called) + behind.all(Called)
    strange = any(before.phrase.word(left) not in BEFORE for left in before.left) or any(
        behind.phrase.word(left) not in CLOSERS for left in behind.left
    )
    if strange or len(calls) > 1:
        return None
    choices = tuple(SameHours(day.value, name) for name in (calls[0].names if calls else (None,)))
    return choices[0] if len(choices) == 1 else Ask(choices)
