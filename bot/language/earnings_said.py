"""What is earned, and when it is paid.

earned := ("how much do i earn" | "earnings" | "my pay" | …) {span | category}
paid   := ("when do i get paid" | …) [category]

Without a span it is this month's.
"""

from __future__ import annotations

from bot.language.meaning import Ask, Show
from bot.language.names import read_names
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.slots import Called
from bot.language.spans import Span, month_around, read_span_of_days
from bot.language.tokens import Found
from bot.language.words import AT_A_CATEGORY

EARNED = opened_by(
    "|".join(
        f"{asked} {earn}"
        for asked in ("how much do i", "how much did i", "how much have i", "how much will i", "what do i", "what did i", "what have i")
        for earn in ("earn", "earned", "make", "made", "get paid")
    )
    + "| earnings | earned | my earnings | income | my income | pay | my pay | wages | my wages | how much am i paid"
    + "| how much money do i make"
)
WHEN_PAID = opened_by("when do i get paid | when am i paid | when will i get paid | when will i be paid | when is payday | when's payday")
SMALL = frozenset("so far at for in from by of my the ? . ! ,".split())


def read_earnings(phrase: Phrase) -> Show | Ask | None:
    """What was or is likely to be earned in a span, or when it is paid; None where any word is left over."""
    earned, when = EARNED(phrase), WHEN_PAID(phrase)
    start = earned or when
    if not start:
        return None
    said = explain(phrase.part(start), (read_span_of_days, _job_said))
    if said.twice(Span, Called) or any(said.phrase.word(at) not in SMALL for at in said.left):
        return None
    call, span = said.one(Called), said.one(Span)
    names = call.names if call else (None,)
    if not earned:
        return _only(tuple(Show("job", category=name) for name in names)) if span is None else None
    today = phrase.context.now.date()
    span = span or month_around(today.year, today.month)
    return _only(tuple(Show("earnings", first=span.first, last=span.last, category=name) for name in names))


def _only(shows: tuple[Show, ...]) -> Show | Ask:
    return shows[0] if len(shows) == 1 else Ask(shows)


def _job_said(phrase: Phrase, at: int) -> Found[Called] | None:
    start = at + 1 if phrase.word(at) in AT_A_CATEGORY else at
    found = read_names(phrase.tokens, start + 1 if phrase.word(start) == "the" else start, phrase.names)
    return Found(Called(found.value), found.end) if found else None
