"""Between the units of the sources and ours."""

from __future__ import annotations

from math import floor


def fahrenheit(celsius: float) -> float:
    """Degrees Fahrenheit of degrees Celsius."""
    return celsius * 1.8 + 32


def celsius(fahrenheit: float) -> float:
    """Degrees Celsius of degrees Fahrenheit."""
    return (fahrenheit - 32) / 1.8


def whole(value: float) -> int:
    """The nearest whole number, halves upwards."""
    return floor(value + 0.5)
