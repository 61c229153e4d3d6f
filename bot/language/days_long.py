"""On how many days a commitment takes place, where that is said as a stretch of days.

days := ["from"] day ("-" | "to" | "until" …) day      every day from one to the other
      | moment "for" number ("days" | "nights")        every day from the one that was said on
      | moment "for" number "weeks"                    once a week, from the day that was said on
      | rule "for" number ("days" | "weeks")           the rule, until then
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from bot.language.amounts import DAY, UNITS
from bot.language.moments import Moment
from bot.language.partial_days import day_shifted
from bot.language.phrase import Phrase
from bot.language.recurrence import Rule, until
from bot.language.slots import amount_said, day_ahead
from bot.language.tokens import Found
from bot.rules.weeks import DAY_CODES

DAY_MINUTES = 24 * 60


@dataclass(frozen=True, slots=True)
class Days:
    """From one day to another, both included."""

    first: date
    last: date


@dataclass(frozen=True, slots=True)
class Lasting:
    """For how many days; ``of_days`` where days or nights were named, and not weeks."""

    days: int
    of_days: bool


def days_ahead(phrase: Phrase, at: int) -> Found[Days] | None:
    """day ("-" | "to" | "until") day: monday to friday, today - next friday."""
    first = day_ahead(phrase, at + 1 if phrase.word(at) == "from" else at)
    if first is None or phrase.word(first.end) not in ("-", "to", "until", "till", "through"):
        return None
    last = day_ahead(phrase, first.end + 1)
    return Found(Days(first.value, last.value), last.end) if last is not None and last.value > first.value else None


def daily(days: Days) -> Rule:
    """From one day to another is every day until the other."""
    return Rule(f"FREQ=DAILY;UNTIL={days.last:%Y%m%d}", days.first)


def lasting_said(phrase: Phrase, at: int) -> Found[Lasting] | None:
    """A number of days, nights or weeks: for 6 weeks."""
    found = amount_said(phrase, at)
    units = [UNITS[token.text] for token in phrase.tokens[at : found.end] if token.text in UNITS] if found else []
    if found is None or not units or any(unit.rank < DAY.rank for unit in units):
        return None
    return Found(Lasting(found.value.minutes // DAY_MINUTES, found.value.of_days), found.end)


def lasting_days(rules: list[Rule], moments: list[Moment], lasting: Lasting | None) -> list[Rule]:
    """The rules, ended after the days or weeks; without one, that which these make of the day of the moments."""
    first = next((rule.first for rule in rules), None) or next((each.day for each in moments if each.day and each.day_said), None)
    last = day_shifted(first, lasting.days - 1) if lasting is not None and first is not None and lasting.days > 1 else None
    if lasting is None or first is None or last is None:
        return rules
    if rules:
        return [Rule(until(rule.text, last) or rule.text, rule.first, rule.start, rule.end) for rule in rules]
    if lasting.of_days:
        return [daily(Days(first, last))]
    return [Rule(f"FREQ=WEEKLY;BYDAY={DAY_CODES[first.weekday()]};UNTIL={last:%Y%m%d}", first)]
