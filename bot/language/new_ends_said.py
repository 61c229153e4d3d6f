"""One end of what is fixed that changes, and what begins so much later or earlier; the rest stays as it was.

one_end := words [day] ("from" | "until" | "starts" | "ends" | …) ["at"] clock [day]
by      := words [day] amount ("later" | "earlier") [day]

The words must name what is fixed, or be a category. Of today only a verb in the present says it: "museum until 17" tells of hours.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.language.amounts import DAY, UNITS, read_amount
from bot.language.ends_said import StartsAt, end_said
from bot.language.meaning import Move
from bot.language.moved_said import moment_to_end, title_words, today_by_name
from bot.language.names import read_names
from bot.language.phrase import Phrase
from bot.language.picks import fits_a_task, fits_what_is_fixed
from bot.language.tokens import Found, text_at
from bot.language.words import AFTER_A_CATEGORY, CLOSERS

LATER = {"later": 1, "earlier": -1}
LATER_WORDS = frozenset(LATER)
SIDES = frozenset({"from", "until", "till", "til"})
VERBS = frozenset({"starts", "start", "begins", "begin", "ends", "end", "finishes", "finish"})
MOST = 12 * 60
MOST_BEFORE = 8
"""Tokens before what changes; common practice, no source."""


def read_new_end(phrase: Phrase) -> Move | None:
    """museum thursday from 14; museum thursday until 18; museum starts at 14 on thursday; what it was called is kept, and the other end."""
    for at in range(1, min(len(phrase.tokens), MOST_BEFORE)):
        end = end_said(phrase, at) if phrase.word(at) in SIDES | VERBS else None
        if end is None:
            continue
        words, day = _what_and_day(phrase, at, end.end) or ("", None)
        is_ahead = day is not None and day > phrase.context.now.date()
        if not _is_fixed(words, phrase) or not (is_ahead or phrase.word(at) in VERBS):
            return None
        if isinstance(end.value, StartsAt):
            return Move(words, None, end.value.time, from_day=day, keeps_end=True)
        return Move(words, None, end=end.value.time, from_day=day)
    return None


def read_so_much_later(phrase: Phrase) -> Move | None:
    """bus 30 min later today; bus monday 1h earlier."""
    for at in range(1, min(len(phrase.tokens), MOST_BEFORE)):
        by = _by(phrase, at)
        if by is not None:
            words, day = _what_and_day(phrase, at, by.end) or ("", None)
            call = read_names(phrase.tokens, 0, phrase.names)
            is_known = _is_fixed(words, phrase) or (call is not None and words and call.end == len(words.split()))
            return Move(words, None, from_day=day, by=by.value) if is_known else None
    return None


def _by(phrase: Phrase, at: int) -> Found[int] | None:
    """Minutes later, or earlier below 0."""
    amount = read_amount(phrase.tokens, at)
    sign = LATER.get(text_at(phrase.tokens, amount.end)) if amount is not None else None
    if amount is None or sign is None or not 0 < amount.value <= MOST:
        return None
    days = any(UNITS[token.text].rank >= DAY.rank for token in phrase.tokens[at : amount.end] if token.text in UNITS)
    return None if days else Found(sign * amount.value, amount.end + 1)


def _what_and_day(phrase: Phrase, at: int, end: int) -> tuple[str, date | None] | None:
    """The words before ``at`` without a shift's own word, and the day behind them or from ``end`` on; None where more is said."""
    last = len(phrase.tokens)
    while last > end and phrase.word(last - 1) in CLOSERS:
        last -= 1
    behind = moment_to_end(phrase.part(0, last), end) if last > end else None
    if last > end and (behind is None or behind.day is None or behind.start is not None):
        return None
    core = phrase.part(0, at)
    day = today_by_name(phrase, end, behind.day) if behind else None
    for start in range(1, at if behind is None else 0):
        moment = moment_to_end(core, start)
        if moment is not None and moment.day is not None and moment.start is None:
            core, day = phrase.part(0, start), today_by_name(phrase, start, moment.day)
            break
    tokens = core.tokens
    while len(tokens) > 1 and tokens[-1].text in AFTER_A_CATEGORY | {"is"}:
        tokens = tokens[:-1]
    words = title_words(replace(core, tokens=tokens))
    return (words, day) if words else None


def _is_fixed(words: str, phrase: Phrase) -> bool:
    named = words.lower().split()
    return bool(named) and fits_what_is_fixed(named, phrase) and not fits_a_task(named, phrase)
