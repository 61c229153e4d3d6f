"""A new job, said in one go.

new job := "new job" name ["," | "employer" | …] {employer | period | rate}
employer := ("employer" | "for" | "at") words
rate := ["rate" | "at" | …] money

    new job bakery, employer Crumb, paid monthly from the 21st, 9.40 an hour

What begins so is a job: words that are none of these are told, and nothing is guessed from them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bot.language.pay_meaning import NewJob
from bot.language.pay_words import (
    AN_HOUR,
    PAID,
    RATE,
    RULE_WORDS,
    SMALL,
    Money,
    MonthFrom,
    Settled,
    Since,
    money_said,
    month_from_said,
    period_said,
    period_settled,
    since_said,
)
from bot.language.phrase import Explained, Phrase, Reader, explain, opened_by
from bot.language.tokens import Found
from storage.records import PayPeriod

NEW_JOB = opened_by("new job | add job | add a job | new paid job")
BEFORE_MONEY = opened_by("at | for | earning | earns | earn | with")
EMPLOYED = ("employer", "for", "at")
SINGLE = (PayPeriod, Since, MonthFrom, Money)


def read_new_job(phrase: Phrase) -> NewJob | None:
    """A new job with what was said of it; None where no name follows."""
    start, end = NEW_JOB(phrase), len(phrase.tokens)
    if not start:
        return None
    employed = _first(phrase, start + 1, end, lambda at: phrase.word(at) in EMPLOYED and not _hourly(phrase, at))
    ruled = _first(phrase, start + 1, end, lambda at: _rule_begins(phrase, at))
    named = min(employed, ruled, _first(phrase, start + 1, end, lambda at: phrase.word(at) in (",", ";")))
    name = phrase.original(start, named).strip(" ,;")
    closes = _employer_ends(phrase, employed, ruled if ruled > employed else end)
    employer = phrase.original(employed + 1, closes).strip(" ,;:")
    if not name or (employed < end and not employer):
        return None
    told = _told(employed - named, closes - named)
    said = explain(phrase.part(named), (told, _paid, period_said, since_said, month_from_said, _hourly))
    return _settled(NewJob(name, employer or None), said)


def _told(start: int, end: int) -> Reader:
    """Reads the employer, which is known already."""
    return lambda phrase, at: Found("employer", end) if at == start else None


def _settled(job: NewJob, said: Explained) -> NewJob:
    """The job with its period and rate, or with the words that make no sense beside them."""
    period, money = period_settled(said), said.one(Money)
    counted = said.one(PayPeriod) or said.one(Since) or said.one(MonthFrom)
    left = [said.phrase.original(*run).strip(" ,;") for run in _unread(said)]
    if said.twice(*SINGLE) or (counted and not period):
        left = [said.phrase.original(0, len(said.phrase.tokens)).strip(" ,;")]
    if left:
        return replace(job, left=", ".join(left))
    period_said = period or Settled(PayPeriod.WEEKLY)
    return replace(
        job,
        paid=period.paid.value if period else None,
        anchor=period_said.anchor,
        month_starts=period_said.month_starts,
        per_hour=money.amount if money else None,
        currency=money.currency if money else None,
    )


def _unread(said: Explained) -> list[tuple[int, int]]:
    return [run for run in said.stretches() if any(said.phrase.word(at) not in SMALL for at in range(*run))]


def _rule_begins(phrase: Phrase, at: int) -> bool:
    return bool(PAID(phrase, at) or period_said(phrase, at) or _hourly(phrase, at))


def _paid(phrase: Phrase, at: int) -> Found[object] | None:
    taken = PAID(phrase, at)
    return Found("paid", at + taken) if taken else None


def _hourly(phrase: Phrase, at: int) -> Found[Money] | None:
    """rate 9.40, at 9,40 eur, 9.40 an hour; behind a comma figures are enough."""
    opened = RATE(phrase, at) or BEFORE_MONEY(phrase, at)
    money = money_said(phrase, at + opened)
    if money is None:
        return None
    told = money.value.currency or any(AN_HOUR(phrase, each) for each in range(at, money.end))
    return money if opened or told or (at and phrase.word(at - 1) in (",", ";")) else None


def _employer_ends(phrase: Phrase, employed: int, end: int) -> int:
    """Where the employer's name ends: at a rule behind a comma, if not before."""
    return _first(phrase, employed + 1, end, lambda at: phrase.word(at) in (",", ";") and phrase.word(at + 1) in RULE_WORDS)


def _first(phrase: Phrase, start: int, end: int, holds: Callable[[int], bool]) -> int:
    """The first token from ``start`` on for which it holds, or the end."""
    return next((at for at in range(start, end) if holds(at)), end)
