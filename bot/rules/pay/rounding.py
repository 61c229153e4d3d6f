"""Rounding of minutes, punches, hours and money: to the nearest, and from the middle up."""

from __future__ import annotations

from datetime import datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Final

from bot.rules.local_time import local
from storage.records import RoundingStep

HUNDREDTH: Final = Decimal("0.01")
MINUTES_AN_HOUR: Final = 60


def nearest(minutes: int, step: RoundingStep) -> int:
    """The multiple of ``step`` that is nearest to ``minutes``; from the middle up.

    Of a quarter of an hour, 1 to 7 minutes go down and 8 to 14 up. Source: 29
    CFR 785.48(b), Wage and Hour Division fact sheet 53.
    """
    return (2 * minutes + step) // (2 * step) * step


def rounded_punch(instant: datetime, step: RoundingStep, zone: str) -> datetime:
    """The instant at which the clocks of ``zone`` show the multiple of ``step`` nearest to what they show at ``instant``.

    Seconds are cut off first, as they are wherever times are shown. An hour
    has a whole number of each step, so the minutes of the hour decide.
    """
    whole = instant.replace(second=0, microsecond=0)
    shown = local(whole, zone).minute
    return whole + timedelta(minutes=nearest(shown, step) - shown)


def hundredths(value: Decimal | Fraction) -> Decimal:
    """``value`` with two decimals, from the middle up: cents, or hundredths of an hour."""
    exact = decimal_of(value) if isinstance(value, Fraction) else value
    return exact.quantize(HUNDREDTH, ROUND_HALF_UP)


def decimal_of(value: Fraction) -> Decimal:
    """``value`` with as many decimals as there are, or to 28 digits where they never end."""
    return Decimal(value.numerator) / Decimal(value.denominator)


def decimal_hours(minutes: int) -> Decimal:
    """Minutes as hours with two decimals: 225 are 3.75."""
    return hundredths(Fraction(minutes, MINUTES_AN_HOUR))
