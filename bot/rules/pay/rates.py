"""What an hour pays."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from bot.rules.pay.job_rules import Rate


def rate_on(day: date, rates: Iterable[Rate]) -> Decimal | None:
    """What an hour pays on ``day``: the latest rate that holds by then, or None."""
    latest = max((rate for rate in rates if rate.since <= day), key=lambda rate: rate.since, default=None)
    return latest.per_hour if latest else None
