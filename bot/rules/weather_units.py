"""Between the units of the sources and ours."""

from __future__ import annotations

from math import floor
from typing import Final

KMH_A_MILE: Final = 1.609344
KMH_A_KNOT: Final = 1.852
KMH_A_METRE_PER_SECOND: Final = 3.6


def fahrenheit(celsius: float) -> float:
    """Degrees Fahrenheit of degrees Celsius."""
    return celsius * 1.8 + 32


def celsius(fahrenheit: float) -> float:
    """Degrees Celsius of degrees Fahrenheit."""
    return (fahrenheit - 32) / 1.8


def kmh_of_mph(mph: float) -> float:
    """Km/h of miles per hour."""
    return mph * KMH_A_MILE


def kmh_of_knots(knots: float) -> float:
    """Km/h of knots."""
    return knots * KMH_A_KNOT


def kmh_of_metres_per_second(metres_per_second: float) -> float:
    """Km/h of metres per second."""
    return metres_per_second * KMH_A_METRE_PER_SECOND


def whole(value: float) -> int:
    """The nearest whole number, halves upwards."""
    return floor(value + 0.5)
