"""What a desk may ask that is nobody's and is not kept: public holidays."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TypeAlias

Holidays: TypeAlias = Callable[[str, date, date], Mapping[date, str]]
"""A country's code (ISO 3166-1), the first and the last day -> the name of each public holiday among these days."""


def no_holidays(_country: str, _first: date, _last: date) -> Mapping[date, str]:
    """None at all: where nobody is there to tell of them."""
    return {}
