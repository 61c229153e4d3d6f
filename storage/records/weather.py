"""The weather that the person was told of."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class ToldWeather:
    """What the forecast of a local day said in its morning: degrees Celsius, a WMO code (table 4677), whether wet hours were likely."""

    day: date
    low: float | None = None
    high: float | None = None
    code: int | None = None
    wet: bool = False
