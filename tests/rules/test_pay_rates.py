from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.pay.job_rules import Rate
from bot.rules.pay.rates import rate_on, salary_a_week
from storage.records import PayPeriod

RATES = (Rate(date(2026, 3, 1), Decimal("14.50")), Rate(date(2025, 1, 1), Decimal("13.80")))


def test_a_rate_holds_from_its_day_until_the_next_ones() -> None:
    assert rate_on(date(2026, 2, 28), RATES) == Decimal("13.80")
    assert rate_on(date(2026, 3, 1), RATES) == Decimal("14.50")


def test_before_the_first_rate_none_is_known() -> None:
    assert rate_on(date(2024, 12, 31), RATES) is None
    assert rate_on(date(2026, 3, 1), ()) is None


@given(st.decimals("0.01", "100000", places=2))
def test_a_salary_for_weeks_is_shared_over_them(salary: Decimal) -> None:
    assert salary_a_week(salary, PayPeriod.WEEKLY) == Fraction(salary)
    assert salary_a_week(salary, PayPeriod.EVERY_TWO_WEEKS) * 2 == salary_a_week(salary, PayPeriod.FOUR_WEEKLY) * 4
    assert salary_a_week(salary, PayPeriod.MONTHLY) * 2 == salary_a_week(salary, PayPeriod.TWICE_A_MONTH)
