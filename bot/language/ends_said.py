"""One end of hours alone, and how much longer or shorter they were.

start := ("from" | "started" | "began" | …) ["at"] clock
end   := ("until" | "to" | "ended" | "stopped" | …) ["at"] clock
by    := amount ("longer" | "more" | "shorter" | "less") | "-" amount, glued
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import time

from bot.language.amounts import read_amount
from bot.language.clock import read_clock
from bot.language.phrase import Phrase
from bot.language.tokens import Found, is_glued, is_number
from bot.language.unsettled_hours import is_length

STARTS = frozenset("from since start starts started starting begin begins began begun beginning".split())
ENDS = frozenset("until till til to end ends ended ending finish finishes finished stop stopped stops".split())
ABOUT = frozenset({"at", "about", "around", "was", "is", ":"})
MORE_OR_LESS = {"longer": 1, "more": 1, "extra": 1, "shorter": -1, "less": -1, "fewer": -1}
MOST = 12 * 60


@dataclass(frozen=True, slots=True)
class StartsAt:
    """When hours began."""

    time: time


@dataclass(frozen=True, slots=True)
class EndsAt:
    """When hours ended."""

    time: time


@dataclass(frozen=True, slots=True)
class By:
    """Minutes more than was said before, or less below 0."""

    minutes: int


def end_said(phrase: Phrase, at: int) -> Found[StartsAt | EndsAt] | None:
    """One end, with the word that says which: from 17:45, started at 6:10, to 23:30, end 12:35."""
    word = phrase.word(at)
    if word not in STARTS and word not in ENDS:
        return None
    start = at + 1
    while phrase.word(start) in ABOUT and start < at + 3:
        start += 1
    found = read_clock(phrase.tokens, start, phrase.context, None)
    if found is None or is_length(phrase.tokens, start, phrase.context):
        return None
    return Found(StartsAt(found.value) if word in STARTS else EndsAt(found.value), found.end)


def by_said(phrase: Phrase, at: int) -> Found[By] | None:
    """20 min longer, 10 minutes less; also -1h, where the sign stands apart from what is before it."""
    minus = (
        phrase.word(at) == "-" and not is_glued(phrase.tokens, at) and is_glued(phrase.tokens, at + 1) and is_number(phrase.tokens, at + 1)
    )
    amount = read_amount(phrase.tokens, at + 1 if minus else at)
    if amount is None or not 0 < amount.value <= MOST or any(token.text == ":" for token in phrase.tokens[at : amount.end]):
        return None
    if minus:
        return Found(By(-amount.value), amount.end)
    sign = MORE_OR_LESS.get(phrase.word(amount.end))
    # In "3h less 30m" the length is followed by a break.
    is_break = sign == -1 and read_amount(phrase.tokens, amount.end + 1) is not None
    return Found(By(sign * amount.value), amount.end + 1) if sign and not is_break else None
