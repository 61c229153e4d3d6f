"""What an hour pays."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Final

from bot.rules.pay.job_rules import Rate
from bot.rules.pay.periods import WEEKS
from bot.rules.pay.rounding import MINUTES_AN_HOUR, hundredths
from storage.records import PayPeriod

WEEKS_A_YEAR: Final = 52
PERIODS_A_YEAR: Final = {PayPeriod.MONTHLY: 12, PayPeriod.TWICE_A_MONTH: 24}


def rate_on(day: date, rates: Iterable[Rate]) -> Decimal | None:
    """What an hour pays on ``day``: the latest rate that holds by then, or None."""
    latest = max((rate for rate in rates if rate.since <= day), key=lambda rate: rate.since, default=None)
    return latest.per_hour if latest else None


def salary_a_week(salary: Decimal, period: PayPeriod) -> Fraction:
    """What a ``salary`` for each ``period`` comes to in a week: a month's times 12, half a month's times 24, over 52 weeks.

    Source: 29 CFR 778.113(b).
    """
    weeks = WEEKS.get(period)
    return Fraction(salary) / weeks if weeks else Fraction(salary) * PERIODS_A_YEAR[period] / WEEKS_A_YEAR


def hourly_of_salary(salary: Decimal, period: PayPeriod, minutes_a_week: int) -> Decimal:
    """What an hour of a ``salary`` for weeks of ``minutes_a_week`` pays, in cents. Source: 29 CFR 778.113."""
    return hundredths(salary_a_week(salary, period) * MINUTES_AN_HOUR / minutes_a_week)
