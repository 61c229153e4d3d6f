"""A break within hours.

break := [","] ("less" | "minus" | "without" | "with" | …) ["a"] amount [["of"] name | "off" | "out"]
       | [","] amount ["of"] name | [","] name ["of"] amount | "-" amount
name  := "break" | "lunch" | "off" | …
"""

from __future__ import annotations

from bot.language.amounts import read_amount
from bot.language.numbers import NUMBER_WORDS, digits_at
from bot.language.tokens import Found, Tokens, is_glued, is_number, text_at

_LESS = frozenset({"less", "minus", "excluding", "excl", "except", "without", "deduct", "deducting", "subtract", "subtracting", "sans"})
_WITH = frozenset({"with", "w", "including", "incl", "having", "taking", "took", "plus"})
_USUAL = range(10, 91)
_FIRST_WORDS = _LESS | _WITH | NUMBER_WORDS | {"-", ",", "(", "and", "break", "lunch", "pause"}
_NAMES = frozenset({"break", "breaks", "lunch", "dinner", "pause", "off", "out", "unpaid", "rest", "lunchbreak", "coffee", "tea"})


def read_break(tokens: Tokens, at: int) -> Found[int] | None:
    """The minutes of a break: less 30m, minus 45 min lunch, with half an hour off, half an hour lunch, (30m break)."""
    start = at
    if at >= len(tokens) or not (tokens[at].kind == "number" or tokens[at].text in _FIRST_WORDS):
        return None
    while text_at(tokens, start) in (",", "(", "and"):
        start += 1
        if start > at + 2:
            return None
    if _is_taken_off(tokens, at):
        taken = read_amount(tokens, at + 1)
        return taken if taken and not any(token.text == ":" for token in tokens[at : taken.end]) else None
    lead = text_at(tokens, start)
    after = start + 1 if lead in _LESS or lead in _WITH else start
    named = _after_names(tokens, after)
    figures_at = named + 1 if text_at(tokens, named) in ("of", ":") else named
    amount = _read_minutes(tokens, figures_at) or _read_bare_minutes(tokens, figures_at)
    if amount is None:
        return None
    end = _after_names(tokens, amount.end)
    if end == amount.end and named == after and lead not in _LESS:
        return None
    return Found(amount.value, end + 1 if text_at(tokens, end) == ")" else end)


def _read_minutes(tokens: Tokens, at: int) -> Found[int] | None:
    if text_at(tokens, at) == "a":
        return read_amount(tokens, at) or read_amount(tokens, at + 1)
    return read_amount(tokens, at)


def _read_bare_minutes(tokens: Tokens, at: int) -> Found[int] | None:
    """A number without a unit, where it is a usual break in minutes: less 30."""
    minutes = digits_at(tokens, at)
    goes_on = text_at(tokens, at + 1) in ("-", ":", ".", "/", ",") and is_glued(tokens, at + 1)
    return Found(minutes, at + 1) if minutes is not None and minutes in _USUAL and not goes_on else None


def _is_taken_off(tokens: Tokens, at: int) -> bool:
    """Whether a minus sign stands there: 13-17 -30m."""
    return at > 0 and tokens[at].text == "-" and not tokens[at].glued and is_glued(tokens, at + 1) and is_number(tokens, at + 1)


def _after_names(tokens: Tokens, at: int) -> int:
    end = at + 1 if text_at(tokens, at) in ("of", "for") else at
    end = end + 1 if end > at and text_at(tokens, end) == "a" else end
    named = end
    while text_at(tokens, named) in _NAMES and named < end + 3:
        named += 1
    return named if named > end else at
