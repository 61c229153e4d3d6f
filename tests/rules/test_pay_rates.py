from __future__ import annotations

from datetime import date
from decimal import Decimal

from bot.rules.pay.job_rules import Rate
from bot.rules.pay.rates import rate_on

RATES = (Rate(date(2026, 3, 1), Decimal("14.50")), Rate(date(2025, 1, 1), Decimal("13.80")))


def test_a_rate_holds_from_its_day_until_the_next_ones() -> None:
    assert rate_on(date(2026, 2, 28), RATES) == Decimal("13.80")
    assert rate_on(date(2026, 3, 1), RATES) == Decimal("14.50")


def test_before_the_first_rate_none_is_known() -> None:
    assert rate_on(date(2024, 12, 31), RATES) is None
    assert rate_on(date(2026, 3, 1), ()) is None
