"""The pieces that rules of paid work are said with: money, multiples, pay periods, a day since, a limit.

money  := [currency] digits [("." | ",") digits] [currency] [("an" | "per" | "/") hour]
times  := ("at" | "x" | …) digits ["." digits] ["times"] | ["at"] ("time and a half" | "double")
since  := ("from" | "since" | …) day
over   := ("over" | "after" | …) amount
period := "weekly" | "every two weeks" | "twice a month" | "four-weekly" | "monthly" | …
month := ["from"] monthday (to monthday | nothing where "from" stood) ["of each month" | …]
to := "-" | "to" | "until" | …
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from bot.language.amounts import read_amount
from bot.language.days import read_day
from bot.language.numbers import read_ordinal, read_whole
from bot.language.phrase import Explained, Opening, Phrase, opened_by
from bot.language.spans import TO
from bot.language.tokens import Found, is_glued, is_number
from storage.records import PayPeriod

CURRENCIES = {
    word: code
    for code, words in {
        "EUR": "€ eur euro euros",
        "USD": "$ usd dollar dollars",
        "GBP": "£ gbp pound pounds",
        "CHF": "chf franken",
    }.items()
    for word in words.split()
} | {code.lower(): code for code in "AUD BRL CAD CZK DKK HUF INR JPY MXN NOK NZD PLN RON SEK SGD TRY ZAR".split()}
"""Words for currencies, and their codes. Source: ISO 4217."""

AN_HOUR = opened_by("an hour | per hour | each hour | hourly | / h | / hr | / hour | the hour | a hour")
AT = opened_by("at | x | times | @ | pays")
TIME_AND_A_HALF = opened_by("time and a half | one and a half | time and half | at time and a half | half as much again")
DOUBLE = opened_by("double | double time | twice | at double | at double time | at twice")
SINCE = opened_by("from | since | starting | starting from | as of | as from | starting on | with effect from")
OVER = opened_by("over | after | above | beyond | past | more than | of more than | for more than | when over | if over | on days over")
OF_A_DAY = opened_by("a day | per day | each day | daily | every day | by day | by the day | / day | in a day | days")
OF_A_WEEK = opened_by("a week | per week | each week | weekly | every week | / week | in a week | by week")
OF_SEVENTH_DAY = opened_by("on the seventh day | seventh day | on the 7 th day | on a seventh day | the seventh day")
EACH_PUNCH = opened_by(
    "each punch | every punch | per punch | punches | each start and end | every start and end | each time | start and end"
)
PERIODS = (
    (opened_by("weekly | every week | each week | once a week | by the week | per week"), PayPeriod.WEEKLY),
    (
        opened_by("every two weeks | every 2 weeks | every other week | biweekly | bi - weekly | fortnightly | every fortnight"),
        PayPeriod.EVERY_TWO_WEEKS,
    ),
    (opened_by("twice a month | semimonthly | semi - monthly | two times a month | half - monthly"), PayPeriod.TWICE_A_MONTH),
    (opened_by("four - weekly | every four weeks | every 4 weeks | 4 - weekly | four weekly"), PayPeriod.FOUR_WEEKLY),
    (opened_by("monthly | every month | each month | once a month | by the month | per month"), PayPeriod.MONTHLY),
)
PAID = opened_by("is paid | paid | pays | pay period | pay | gets paid | is paid out")
RATE = opened_by("rate | hourly rate | pay rate | wage | hourly wage | pays | pay")
SMALL = frozenset(
    """
    : , . ! is has have the a an of to at on in for nearest due unpaid with work worked hours times rate time take takes taken off they
    there by it its and end period starts start begins their same day please my
    """.split()
)
RULE_WORDS = frozenset(
    "rate wage pays pay rounds rounding round rounded break breaks paid payday paydays overtime workweek currency employer".split()
) | {"job", "week"}
OF: tuple[tuple[Opening, Literal["week", "day", "seventh day", "punch"]], ...] = (
    (OF_SEVENTH_DAY, "seventh day"),
    (OF_A_DAY, "day"),
    (OF_A_WEEK, "week"),
    (EACH_PUNCH, "punch"),
)
A_MONTH = opened_by(
    "of the month | of each month | of every month | of a month | each month | every month | of the next month | of the following month"
)
MOST_FIGURES = 6
MOST_DAYS = 31
HALVES = (1, 16)
"""Where the halves of a month begin."""
SHORTEST_END = 28
"""The last day of a month that begins on the 1st is this or a later one."""
DECIMALS = {".": 4, ",": 2}
"""How many figures may follow the mark: 1,234 may be a thousand."""


@dataclass(frozen=True, slots=True)
class Money:
    """Decimal text, and a currency's code where it was said."""

    amount: str
    currency: str | None


@dataclass(frozen=True, slots=True)
class Times:
    """How many times the rate, as decimal text."""

    times: str


@dataclass(frozen=True, slots=True)
class Since:
    """The day from which something holds."""

    day: date


@dataclass(frozen=True, slots=True)
class MonthFrom:
    """The day of the month on which a month of pay begins."""

    day: int


@dataclass(frozen=True, slots=True)
class MonthDay:
    """A day of the month."""

    day: int


@dataclass(frozen=True, slots=True)
class Settled:
    """A pay period, and what it is counted from: a day of a first one of weeks, or the day of the month."""

    paid: PayPeriod
    anchor: date | None = None
    month_starts: int | None = None


@dataclass(frozen=True, slots=True)
class Over:
    """Minutes beyond which something holds."""

    minutes: int


@dataclass(frozen=True, slots=True)
class Of:
    """What a limit or a rounding is of."""

    what: Literal["week", "day", "seventh day", "punch"]


def money_said(phrase: Phrase, at: int) -> Found[Money] | None:
    """€ 14.50, 14,50 euro an hour, 15/h."""
    before = CURRENCIES.get(phrase.word(at))
    number = decimal_at(phrase, at + 1 if before else at)
    if number is None:
        return None
    after = CURRENCIES.get(phrase.word(number.end)) if before is None else None
    end = number.end + 1 if after else number.end
    return Found(Money(number.value, before or after), end + AN_HOUR(phrase, end))


def decimal_at(phrase: Phrase, at: int) -> Found[str] | None:
    """Digits with decimals or without, as text with a point: 14.50, 14,50, 15."""
    if not is_number(phrase.tokens, at) or not phrase.word(at).isdecimal() or len(phrase.word(at)) > MOST_FIGURES:
        return None
    mark = phrase.word(at + 1)
    decimals = phrase.word(at + 2) if mark in DECIMALS and is_glued(phrase.tokens, at + 1) and is_glued(phrase.tokens, at + 2) else ""
    if not decimals.isdecimal():
        return Found(str(int(phrase.word(at))), at + 1)
    return Found(f"{int(phrase.word(at))}.{decimals}", at + 3) if len(decimals) <= DECIMALS[mark] else None


def times_said(phrase: Phrase, at: int) -> Found[Times] | None:
    """at 1.5, at 2 times, time and a half, double."""
    half, double = TIME_AND_A_HALF(phrase, at), DOUBLE(phrase, at)
    if half or double:
        return Found(Times("1.5" if half else "2"), at + max(half, double))
    start = AT(phrase, at)
    number = decimal_at(phrase, at + start) if start else None
    return Found(Times(number.value), number.end + (phrase.word(number.end) == "times")) if number else None


def since_said(phrase: Phrase, at: int) -> Found[Since] | None:
    """from 1 march, since monday: of the days it may be, the one nearest to today."""
    start = SINCE(phrase, at)
    found = [read_day(phrase.tokens, at + start, phrase.context, look) for look in ("back", "forward")] if start else []
    days = [each for each in found if each is not None]
    if not days:
        return None
    today = phrase.context.now.date()
    nearest = min(days, key=lambda each: abs(each.value - today))
    return Found(Since(nearest.value), nearest.end)


def over_said(phrase: Phrase, at: int) -> Found[Over] | None:
    """over 40 h, after 6 hours."""
    start = OVER(phrase, at)
    if not start:
        return None
    # What it is of ends the amount: "8h30 a day" is no half past eight.
    end = next((end for end in range(at + start + 1, len(phrase.tokens)) if of_said(phrase, end)), len(phrase.tokens))
    amount = read_amount(phrase.tokens[:end], at + start)
    return Found(Over(amount.value), amount.end) if amount else None


def of_said(phrase: Phrase, at: int) -> Found[Of] | None:
    """a day, a week, on the seventh day, each punch."""
    for opening, what in OF:
        taken = opening(phrase, at)
        if taken:
            return Found(Of(what), at + taken)
    return None


def period_said(phrase: Phrase, at: int) -> Found[PayPeriod] | None:
    """weekly, every two weeks, twice a month, every four weeks, monthly."""
    for opening, period in PERIODS:
        taken = opening(phrase, at)
        if taken:
            return Found(period, at + taken)
    return None


def month_from_said(phrase: Phrase, at: int) -> Found[MonthFrom] | None:
    """from the 21st, 21-20, the 21st to the 20th of the next month: where the last day is said, it is the one before the first."""
    start = SINCE(phrase, at)
    first = _day_of_month(phrase, at + start)
    if first is None:
        return None
    last = _day_of_month(phrase, first.end + 1) if phrase.word(first.end) in TO else None
    if last is None:
        return Found(MonthFrom(first.value), first.end + A_MONTH(phrase, first.end)) if start and _ends(phrase, first.end) else None
    follows = last.value == first.value - 1 or (first.value == 1 and last.value >= SHORTEST_END)
    return Found(MonthFrom(first.value), last.end + A_MONTH(phrase, last.end)) if follows else None


def month_day_said(phrase: Phrase, at: int) -> Found[MonthDay] | None:
    """on the 28th, the 28th of each month."""
    start = at + (phrase.word(at) == "on")
    start += phrase.word(start) == "the"
    day = read_ordinal(phrase.tokens, start)
    return Found(MonthDay(day.value), day.end + A_MONTH(phrase, day.end)) if day and 1 <= day.value <= MOST_DAYS else None


def _day_of_month(phrase: Phrase, at: int) -> Found[int] | None:
    at += phrase.word(at) == "the"
    day = read_ordinal(phrase.tokens, at) or read_whole(phrase.tokens, at)
    return day if day and 1 <= day.value <= MOST_DAYS else None


def _ends(phrase: Phrase, at: int) -> bool:
    """Whether a day of the month may end at ``at``: no month, figure or unit is behind it."""
    return phrase.word(at) in ("", ",", ".", ";") or bool(A_MONTH(phrase, at) or period_said(phrase, at))


def period_settled(said: Explained) -> Settled | None:
    """The pay period that was said with what it is counted from; None where the two do not fit, so that nothing said is dropped."""
    since, month = said.one(Since), said.one(MonthFrom)
    period = said.one(PayPeriod) or (PayPeriod.MONTHLY if month else None)
    if period is None or (since and month):
        return None
    if period is PayPeriod.MONTHLY:
        return Settled(period, month_starts=month.day if month else since.day.day if since else None)
    if month or (since and period is PayPeriod.TWICE_A_MONTH and since.day.day not in HALVES):
        return None
    return Settled(period, since.day if since and period is not PayPeriod.TWICE_A_MONTH else None)
