"""Hours as said, not settled yet: before anyone decides between morning and evening.

hours := span [break]
span  := ["from" | "between"] clock ("-" | "to" | "up to" | "till" | "until" | "and") clock
       | clock ("to" | "until") "late"
       | ["from"] clock "for" amount | ["for"] amount ["starting"] "from" clock
       | "since" clock | "until" clock
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bot.language.amounts import DAY, UNITS, read_amount
from bot.language.breaks import read_break
from bot.language.clock import CLOCK_WORDS, read_spoken
from bot.language.context import Context
from bot.language.numbers import digits_at
from bot.language.times_of_day import Clock
from bot.language.tokens import Found, Tokens, is_glued, is_number, text_at

_UNTIL = frozenset({"until", "till", "til", "untill"})
UNTO = _UNTIL | {"-", "to", "thru", "through", "ending"}
_FROM = frozenset({"from", "between", "starting", "beginning"})
TIME_FIRST_WORDS = CLOCK_WORDS | _UNTIL | _FROM | {"since", "for", "about", "around"}
_ABOUT = frozenset({"at", "about", "around", "from", "approximately", "roughly"})
_TWO_WORDS = {"up": ("to", "until", "till"), "-": (">",)}
_LATE = frozenset({"late", "whenever"})
"""An end that nobody knows."""


@dataclass(frozen=True, slots=True)
class UnsettledHours:
    """``lasting`` minutes stand in for the end where that was said; ``until_now`` says that the end is now."""

    start: Clock | None
    end: Clock | None = None
    lasting: int | None = None
    until_now: bool = False
    break_minutes: int = 0

    @property
    def is_time(self) -> bool:
        """Whether it is a time alone."""
        return self.start is not None and self.end is None and self.lasting is None and not self.until_now


def read_unsettled_hours(tokens: Tokens, at: int) -> Found[UnsettledHours] | None:
    """Hours with a start, an end or both, and the break that follows them."""
    said = read_unsettled_time(tokens, at)
    return None if said is None or said.value.is_time else said


def read_unsettled_time(tokens: Tokens, at: int) -> Found[UnsettledHours] | None:
    """Hours, or a time alone; "15 minutes from 1pm" is a time, not 15 minutes from 1pm on."""
    if at >= len(tokens) or (tokens[at].kind != "number" and tokens[at].text not in TIME_FIRST_WORDS):
        return None
    span = _read_open(tokens, at) or _read_span(tokens, at)
    if span is None or span.value.is_time:
        return span
    pause = read_break(tokens, span.end)
    return span if pause is None else Found(replace(span.value, break_minutes=pause.value), pause.end)


def runs_on(tokens: Tokens, at: int) -> bool:
    """Whether figures go on as a date or a telephone number does: 3-7-07, 650-650-6500."""
    return text_at(tokens, at) in ("-", "/", ".", ":") and tokens[at].glued and is_number(tokens, at + 1) and is_glued(tokens, at + 1)


def is_length(tokens: Tokens, at: int, context: Context) -> bool:
    """Whether figures with an "h" are hours and no time, for at that time nobody is awake: 3h; but 9h, 16h and 3h30 are times."""
    hours = digits_at(tokens, at)
    return hours is not None and hours < context.waking_start.hour and text_at(tokens, at + 1) == "h" and not is_glued(tokens, at + 2)


def _read_open(tokens: Tokens, at: int) -> Found[UnsettledHours] | None:
    """since clock, until clock."""
    lead = text_at(tokens, at)
    if lead != "since" and lead not in _UNTIL:
        return None
    said = read_spoken(tokens, _after_about(tokens, at + 1))
    if said is None or runs_on(tokens, said.end):
        return None
    return Found(UnsettledHours(said.value, until_now=True) if lead == "since" else UnsettledHours(None, said.value), said.end)


def _read_span(tokens: Tokens, at: int) -> Found[UnsettledHours] | None:
    lead, start_at = tokens[at].text, _after_from(tokens, at)
    start = read_spoken(tokens, start_at)
    found = (_read_to(tokens, start, lead) or _read_for(tokens, start)) if start else None
    if found is not None:
        return found
    lasting = _read_amount_first(tokens, at)
    if start is None or start_at > at or (lasting and lasting.end > start.end):
        return lasting
    return Found(UnsettledHours(start.value), start.end)


def _read_to(tokens: Tokens, start: Found[Clock], lead: str) -> Found[UnsettledHours] | None:
    joint, after = text_at(tokens, start.end), _after_unto(tokens, start.end)
    if after == start.end and not (joint == "and" and lead == "between"):
        return None
    if text_at(tokens, after) in _LATE and joint != "-":
        return Found(UnsettledHours(start.value), after + 1)
    end = read_spoken(tokens, _after_about(tokens, max(after, start.end + 1)))
    return None if end is None or runs_on(tokens, end.end) else Found(UnsettledHours(start.value, end.value), end.end)


def _after_unto(tokens: Tokens, at: int) -> int:
    """The index after a word that leads to an end; ``at`` itself where none stands."""
    if text_at(tokens, at + 1) in _TWO_WORDS.get(text_at(tokens, at), ()):
        return at + 2
    return at + 1 if text_at(tokens, at) in UNTO else at


def _read_for(tokens: Tokens, start: Found[Clock]) -> Found[UnsettledHours] | None:
    amount = read_amount(tokens, start.end) if text_at(tokens, start.end) == "for" else None
    if amount is None or _names_days(tokens[start.end : amount.end]):
        return None
    return Found(UnsettledHours(start.value, lasting=amount.value), amount.end)


def _names_days(tokens: Tokens) -> bool:
    """Whether days or weeks are named, which are how often something comes and not how long it is: at 9 for 6 weeks."""
    return any(UNITS[token.text].rank >= DAY.rank for token in tokens if token.text in UNITS)


def _read_amount_first(tokens: Tokens, at: int) -> Found[UnsettledHours] | None:
    amount = read_amount(tokens, at)
    if amount is None or text_at(tokens, amount.end) not in _FROM:
        return None
    start = read_spoken(tokens, _after_from(tokens, amount.end))
    return Found(UnsettledHours(start.value, lasting=amount.value), start.end) if start else None


def _after_from(tokens: Tokens, at: int) -> int:
    return _after_about(tokens, at + 1) if text_at(tokens, at) in _FROM else at


def _after_about(tokens: Tokens, at: int) -> int:
    return at + 1 if text_at(tokens, at) in _ABOUT else at
