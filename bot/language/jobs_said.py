"""What an employer has settled, said in a reply.

rule := [category] topic {piece} | topic [category] {piece}

    rate museum 14.50 from 1 march            workshop rounds to 15 min each day
    museum break 30 min after 6 h             museum is paid every two weeks from 2 march
    payday museum 5 days after                overtime workshop over 40 h at 1.5
    workweek museum starts sunday             payday reminder on
    museum is paid monthly from the 21st      pay period museum 21st to 20th

The whole reply must be made of the topic's pieces and small words. Which topic it is, a word of its own tells.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeAlias

from bot.language.meaning import Ask, Meaning
from bot.language.names import read_names
from bot.language.new_jobs_said import read_new_job
from bot.language.numbers import read_whole
from bot.language.pay_meaning import (
    RemindPayday,
    SetBreak,
    SetJobWord,
    SetOvertime,
    SetPayday,
    SetPayPeriod,
    SetRate,
    SetRounding,
)
from bot.language.pay_words import (
    CURRENCIES,
    PAID,
    RATE,
    SMALL,
    Money,
    MonthDay,
    MonthFrom,
    Of,
    Over,
    Since,
    Times,
    money_said,
    month_day_said,
    month_from_said,
    of_said,
    over_said,
    period_said,
    period_settled,
    since_said,
    times_said,
)
from bot.language.phrase import Explained, Opening, Phrase, Reader, explain, opened_by
from bot.language.slots import Amount, Called, amount_said, called
from bot.language.tokens import Found
from bot.language.weekdays import weekday_at
from storage.records import PayPeriod, Weekday

Rule: TypeAlias = SetRate | SetRounding | SetBreak | SetPayPeriod | SetPayday | SetOvertime | SetJobWord
Maker: TypeAlias = Callable[[Explained], Rule | None]

ROUNDING = opened_by("rounds | rounding | round | rounded | is rounded")
BREAK = opened_by("break | breaks | unpaid break | break rule")
PAYDAY = opened_by("payday | pay day | paydays | is paid")
OVERTIME = opened_by("overtime")
WORKWEEK = opened_by("workweek | work week | working week")
CURRENCY = opened_by("currency")
EMPLOYER = opened_by("employer")
REMINDER = opened_by("payday reminder | payday reminders | remind me of payday | remind me before payday | pay day reminder")
OFF = opened_by("off | none | no | never | no longer | without | not known | exact")
DAYS_AFTER = opened_by("days after | day after | days later | day later | days after the period | days after it | days after its end")


@dataclass(frozen=True, slots=True)
class Topic:
    """The word that tells what a rule is about."""


@dataclass(frozen=True, slots=True)
class Off:
    """That there is no such rule."""


@dataclass(frozen=True, slots=True)
class DaysAfter:
    """Days after a period's last one."""

    days: int


def read_job_rule(phrase: Phrase) -> Meaning | None:
    """A rule of a job, a new job, or whether payday is reminded of; None where any word is left over."""
    return read_new_job(phrase) or _reminder(phrase) or _employer(phrase) or _rule(phrase)


def _rule(phrase: Phrase) -> Meaning | None:
    words = {token.text for token in phrase.tokens}
    for topic, readers, maker in RULES:
        if words.isdisjoint(topic.calls) or not any(topic(phrase, at) for at in range(len(phrase.tokens))):
            continue
        said = explain(phrase, (_topic_of(topic), *readers, _off_said, called))
        if said.one(Topic) is None or said.twice(*SINGLE) or any(said.phrase.word(at) not in SMALL for at in said.left):
            continue
        made = maker(said)
        if made is not None:
            return _for_each(said.one(Called), made)
    return None


def _for_each(call: Called | None, rule: Rule) -> Meaning:
    """The rule for the category called; where a call may mean several, the choice."""
    choices = tuple(replace(rule, category=name) for name in (call.names if call else (None,)))
    return choices[0] if len(choices) == 1 else Ask(choices)


def _topic_of(topic: Opening) -> Reader:
    def read(phrase: Phrase, at: int) -> Found[object] | None:
        taken = topic(phrase, at)
        return Found(Topic(), at + taken) if taken else None

    return read


def _off_said(phrase: Phrase, at: int) -> Found[object] | None:
    taken = OFF(phrase, at)
    return Found(Off(), at + taken) if taken else None


def _days_after_said(phrase: Phrase, at: int) -> Found[object] | None:
    """5 days after; on the last day."""
    count = read_whole(phrase.tokens, at)
    taken = DAYS_AFTER(phrase, count.end) if count else 0
    if count and taken:
        return Found(DaysAfter(count.value), count.end + taken)
    return Found(DaysAfter(0), at + 2) if (phrase.word(at), phrase.word(at + 1)) in (("last", "day"), ("same", "day")) else None


def _weekday_said(phrase: Phrase, at: int) -> Found[object] | None:
    return weekday_at(phrase.tokens, at)


def _currency_said(phrase: Phrase, at: int) -> Found[object] | None:
    code = CURRENCIES.get(phrase.word(at))
    return Found(Money("", code), at + 1) if code else None


def _rate(said: Explained) -> Rule | None:
    money, since = said.one(Money), said.one(Since)
    return SetRate(None, money.amount, since.day if since else None, money.currency) if money else None


def _rounding(said: Explained) -> Rule | None:
    amount, of = said.one(Amount), said.one(Of)
    if said.one(Off):
        return None if amount or of else SetRounding(None, None)
    if amount is None or (of and of.what not in ("day", "punch")):
        return None
    return SetRounding(None, amount.minutes, "each day" if of and of.what == "day" else "each punch")


def _break(said: Explained) -> Rule | None:
    amount, over = said.one(Amount), said.one(Over)
    if said.one(Off):
        return None if amount or over else SetBreak(None)
    return SetBreak(None, amount.minutes, over.minutes) if amount and over else None


def _pay_period(said: Explained) -> Rule | None:
    settled = period_settled(said)
    return SetPayPeriod(None, settled.paid.value, settled.anchor, settled.month_starts) if settled else None


def _payday(said: Explained) -> Rule | None:
    after, on = said.one(DaysAfter), said.one(MonthDay)
    if said.one(Off):
        return None if after or on else SetPayday(None, None)
    if on:
        return None if after else SetPayday(None, None, on.day)
    return SetPayday(None, after.days) if after else None


def _overtime(said: Explained) -> Rule | None:
    over, times, of = said.one(Over), said.one(Times), said.one(Of)
    if said.one(Off):
        return None if over or times or of else SetOvertime(None)
    what = of.what if of else "week"
    if times is None or what == "punch" or (over is None and what != "seventh day"):
        return None
    return SetOvertime(None, over.minutes if over else 0, times.times, what)


def _workweek(said: Explained) -> Rule | None:
    weekday = said.one(Weekday)
    return None if weekday is None else SetJobWord(None, "workweek", weekday.name.lower())


def _currency(said: Explained) -> Rule | None:
    money = said.one(Money)
    return SetJobWord(None, "currency", money.currency) if money and money.currency else None


SINGLE = (Topic, Off, Amount, Over, Of, Times, Since, MonthFrom, MonthDay, Money, PayPeriod, DaysAfter, Weekday, Called)
RULES: tuple[tuple[Opening, tuple[Reader, ...], Maker], ...] = (
    (RATE, (money_said, since_said), _rate),
    (ROUNDING, (amount_said, of_said), _rounding),
    (BREAK, (over_said, amount_said), _break),
    (PAYDAY, (_days_after_said, month_day_said), _payday),
    (PAID, (period_said, since_said, month_from_said), _pay_period),
    (OVERTIME, (over_said, times_said, of_said), _overtime),
    (WORKWEEK, (_weekday_said,), _workweek),
    (CURRENCY, (_currency_said,), _currency),
)


def _reminder(phrase: Phrase) -> Meaning | None:
    start = REMINDER(phrase)
    end = len(phrase.tokens)
    word = phrase.word(end - 1) if end - start >= 1 else ""
    if not start or word not in ("on", "off"):
        return None
    name = read_names(phrase.tokens, start, phrase.names) if end - start > 1 else None
    if name is None:
        return RemindPayday(word == "on") if end - start == 1 else None
    return RemindPayday(word == "on", name.value[0]) if name.end == end - 1 and len(name.value) == 1 else None


def _employer(phrase: Phrase) -> Meaning | None:
    """employer museum City Museum, museum employer is City Museum: what is behind is the name as typed."""
    opened = EMPLOYER(phrase)
    name = read_names(phrase.tokens, opened, phrase.names)
    if name is None or len(name.value) != 1:
        return None
    behind = 0 if opened else EMPLOYER(phrase, name.end)
    at = name.end + behind
    at += phrase.word(at) in ("is", ":", "=")
    employer = phrase.original(at, len(phrase.tokens))
    return SetJobWord(name.value[0], "employer", employer) if employer and (opened or behind) else None
