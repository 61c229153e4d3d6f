"""How long a task or a goal will take.

estimate := amount | number ("x" | "times") amount | amount ("x" number | number ("x" | "times"))

An estimate of a day or more is one in hours only: 30h, but "wait 2 days".
"""

from __future__ import annotations

from bot.language.amounts import DAY, HOUR, UNITS
from bot.language.numbers import digits_at
from bot.language.phrase import Phrase
from bot.language.slots import Amount, amount_said
from bot.language.tokens import Found, is_glued, is_number

A_DAY = DAY.seconds // 60
LONGEST_ESTIMATE = 999 * 60
TIMES = frozenset({"x", "times", "\N{MULTIPLICATION SIGN}"})


def estimate_said(phrase: Phrase, at: int) -> Found[Amount] | None:
    """An amount with a unit, that of all its times: "wait 2 days" and "at 15:30" are part of a title."""
    times = _times(phrase, at)
    once = _once(phrase, times.end if times else at)
    if once is None:
        return None
    behind = None if times else _times(phrase, once.end)
    minutes = once.value * (times or behind or Found(1, at)).value
    return Found(Amount(minutes), behind.end if behind else once.end) if minutes <= LONGEST_ESTIMATE else None


def _times(phrase: Phrase, at: int) -> Found[int] | None:
    """3x, 3 times, x 3."""
    if phrase.word(at) in TIMES - {"times"}:
        number, end = digits_at(phrase.tokens, at + 1), at + 2
    else:
        number, end = digits_at(phrase.tokens, at), at + 2
        number = number if phrase.word(at + 1) in TIMES else None
    return Found(number, end) if number else None


def _once(phrase: Phrase, at: int) -> Found[int] | None:
    found = None if _is_inside_a_number(phrase, at) else amount_said(phrase, at)
    if found is None or not 0 < found.value.minutes <= LONGEST_ESTIMATE or _is_no_estimate(phrase, at, found):
        return None
    return Found(found.value.minutes, found.end)


def _is_inside_a_number(phrase: Phrase, at: int) -> bool:
    """Whether the .5 of 1.5 stands there."""
    return phrase.word(at) in (".", ",") and is_glued(phrase.tokens, at) and is_number(phrase.tokens, at - 1)


def _is_no_estimate(phrase: Phrase, at: int, found: Found[Amount]) -> bool:
    """Whether it is a time, or a length of which nobody knows how many hours of work are in it."""
    words = {token.text for token in phrase.tokens[at : found.end]}
    return ":" in words or (found.value.minutes >= A_DAY and any(UNITS.get(word, HOUR).rank >= DAY.rank for word in words))
