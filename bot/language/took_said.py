"""How long closing took, on what, and on which day: what may end a reply about tasks.

took := [day] [["in" | "took"] amount [category]] [day]
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from bot.language.amounts import read_amount
from bot.language.meaning import Close
from bot.language.phrase import Phrase
from bot.language.pick import Pick
from bot.language.slots import called, day_back

TOOK = frozenset({"in", "took", "after", "within", "(", ",", "-", "for", "it", "with"})
ENDINGS = frozenset({".", "!", ",", ")", "please", "thanks", "now", "instead", "too"})
LONGEST_DAY = 6
"""In tokens: the day before yesterday."""


@dataclass(frozen=True, slots=True)
class Took:
    """How long closing took, on what, and on which day, where that was said."""

    minutes: int | None = None
    category: str | None = None
    day: date | None = None

    def of(self, pick: Pick) -> Close:
        """The closing of these tasks that took so long."""
        return Close(pick, self.minutes, self.category, self.day)


def read_took(phrase: Phrase, at: int) -> Took | None:
    """What ends the phrase from ``at`` on: a day that has been, an amount, perhaps with a category, both, or nothing; else None."""
    day = day_back(phrase, at)
    took = _how_long(phrase, at if day is None else day.end)
    if took is not None or day is not None:
        return took if took is None or day is None else replace(took, day=day.value)
    for last in range(max(at + 1, len(phrase.tokens) - LONGEST_DAY), len(phrase.tokens)):
        behind = day_back(phrase, last)
        if behind is not None and is_over(phrase, behind.end):
            took = _how_long(phrase.part(0, last), at)
            return replace(took, day=behind.value) if took is not None else None
    return None


def without_day(phrase: Phrase) -> tuple[Phrase, date | None]:
    """What a day that has been stands before or behind, and that day; the whole where none does, or where the day is part of a title."""
    end = len(phrase.tokens)
    first = day_back(phrase, 0)
    if first is not None and first.end < end and not _in_a_title(phrase.part(0, first.end)):
        return phrase.part(first.end + (phrase.word(first.end) == ",")), first.value
    for at in range(max(1, end - LONGEST_DAY), end):
        last = day_back(phrase, at)
        if last is not None and last.end == end and not _in_a_title(phrase.part(at)):
            return phrase.part(0, at - (phrase.word(at - 1) == ",")), last.value
    return phrase, None


def _in_a_title(day: Phrase) -> bool:
    titles = (*(title for _, title in day.context.tasks), *day.context.routines)
    return any({token.text for token in day.tokens} <= set(title.lower().split()) for title in titles)


def _how_long(phrase: Phrase, at: int) -> Took | None:
    if is_over(phrase, at):
        return Took()
    for _ in range(3):
        if phrase.word(at) in TOOK:
            at += 1
    amount = read_amount(phrase.tokens, at)
    if amount is None:
        return None
    call = called(phrase, amount.end)
    end = call.end if call is not None and len(call.value.names) == 1 else amount.end
    if not is_over(phrase, end):
        return None
    return Took(amount.value or None, call.value.names[0] if call is not None and end == call.end else None)


def is_over(phrase: Phrase, at: int) -> bool:
    """Whether nothing but closing words stands from ``at`` on."""
    return at >= len(phrase.tokens) or all(token.text in ENDINGS for token in phrase.tokens[at:])
