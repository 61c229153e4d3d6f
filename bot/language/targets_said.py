"""Weekly targets: hours wanted in a category.

target := "target" category bounds | category "target" bounds | category bounds "a week"
bounds := "at least" amount | "at most" amount | amount ("-" | "to") amount | amount

A bare amount is wanted at least.
"""

from __future__ import annotations

from dataclasses import dataclass

from bot.language.amounts import read_amount
from bot.language.meaning import Ask, SetTarget
from bot.language.numbers import read_quantity
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.slots import Called, called
from bot.language.tokens import Found

TARGET = opened_by("target | targets | set target | set a target | new target | target of | add target | aim | i want")
HINTS = frozenset({"target", "week", "wk", "weekly"})
PASSED_OVER = frozenset({"target", ":", ",", ".", "of", "for"})
AT_LEAST = opened_by(
    "at least | min | minimum | minimum of | a minimum of | no less than | not less than | more than | over | least | > = | >"
)
AT_MOST = opened_by(
    "at most | max | maximum | maximum of | a maximum of | up to | no more than | not more than | less than | under | most | < = | <"
)
WEEK_MINUTES = 7 * 24 * 60
A_WEEK = opened_by("a week | per week | each week | every week | / week | weekly | the week | this week | a wk | / wk | week | wk")


@dataclass(frozen=True, slots=True)
class Bounds:
    """Minutes; ``worded`` tells that more than a bare amount was said."""

    at_least: int | None
    at_most: int | None
    worded: bool = True


@dataclass(frozen=True, slots=True)
class AWeek:
    """That the bounds are those of a week."""


def read_target(phrase: Phrase) -> SetTarget | Ask | None:
    """Hours wanted a week in a category."""
    start = TARGET(phrase)
    if not start and not any(token.text in HINTS for token in phrase.tokens):
        return None
    said = explain(phrase.part(start), (a_week_said, bounds_said, called))
    call, bounds = said.one(Called), said.one(Bounds)
    left = [said.phrase.word(at) for at in said.left]
    if call is None or bounds is None or said.twice(Called, Bounds) or any(word not in PASSED_OVER for word in left):
        return None
    if not (start or "target" in left or (bounds.worded and said.one(AWeek) is not None)):
        return None
    choices = tuple(SetTarget(name, bounds.at_least, bounds.at_most) for name in call.names)
    return choices[0] if len(choices) == 1 else Ask(choices)


def a_week_said(phrase: Phrase, at: int) -> Found[AWeek] | None:
    """a week, per week …"""
    taken = A_WEEK(phrase, at)
    return Found(AWeek(), at + taken) if taken else None


def bounds_said(phrase: Phrase, at: int) -> Found[Bounds] | None:
    """at least 5h, at most 20h, at least 5h and at most 10h, 5-10h, between 5h and 10h, 5h."""
    found = _one_bound(phrase, at) or _two_bounds(phrase, at)
    if found is None:
        return None
    second = _one_bound(phrase, found.end + 1 if phrase.word(found.end) in ("and", ",", "but") else found.end)
    if second is not None:
        found = _both(found, second)
    return found if _possible(found.value) else None


def _both(first: Found[Bounds], second: Found[Bounds]) -> Found[Bounds]:
    """Two bounds of which one is the least and one the most; a second of the same side is left for others to read."""
    if (first.value.at_least is None) == (second.value.at_least is None):
        return first
    least = first.value.at_least or second.value.at_least
    return Found(Bounds(least, first.value.at_most or second.value.at_most), second.end)


def _possible(bounds: Bounds) -> bool:
    least, most = bounds.at_least, bounds.at_most
    if least is not None and most is not None and least > most:
        return False
    return all(0 < bound <= WEEK_MINUTES for bound in (least, most) if bound is not None)


def _one_bound(phrase: Phrase, at: int) -> Found[Bounds] | None:
    least, most = AT_LEAST(phrase, at), AT_MOST(phrase, at)
    amount = read_amount(phrase.tokens, at + max(least, most)) if least or most else None
    if amount is None:
        return None
    return Found(Bounds(amount.value, None) if least > most else Bounds(None, amount.value), amount.end)


def _two_bounds(phrase: Phrase, at: int) -> Found[Bounds] | None:
    """5-10h, 5h to 10h, between 5 and 10 hours; or one amount, which is wanted at least."""
    start = at + 1 if phrase.word(at) in ("between", "from", "of", "for") else at
    low = read_quantity(phrase.tokens, start)
    if low is not None and phrase.word(low.end) in ("-", "to", "and"):
        high = read_amount(phrase.tokens, low.end + 1)
        if high is not None:
            return Found(Bounds(int(low.value * 60), high.value), high.end)
    amount = read_amount(phrase.tokens, start)
    if amount is None:
        return None
    most = read_amount(phrase.tokens, amount.end + 1) if phrase.word(amount.end) in ("-", "to", "and") else None
    return Found(Bounds(amount.value, most.value), most.end) if most else Found(Bounds(amount.value, None, worded=False), amount.end)
