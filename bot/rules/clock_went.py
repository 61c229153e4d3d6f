"""Which way the clock went while something lasted: why ten hours may pass between ten in the evening and seven, or one time come twice."""

from __future__ import annotations

from datetime import datetime
from typing import Literal
from zoneinfo import ZoneInfo


def which_pass(instant: datetime, zone: ZoneInfo) -> Literal["first", "second"] | None:
    """Of an hour that the clocks of ``zone`` show twice, which one a UTC instant is in; None where its time comes once. Source: PEP 495."""
    shown = instant.astimezone(zone)
    if shown.replace(fold=0).utcoffset() == shown.replace(fold=1).utcoffset():
        return None
    return "second" if shown.fold else "first"


def clock_went(starts: datetime, ends: datetime, zone: ZoneInfo) -> Literal["back", "forward"] | None:
    """Whether the clocks of ``zone`` were put back or forward between two UTC instants; None where they show what went by.

    Python subtracts aware times of one zone as its clocks show them (PEP 495), and UTC instants as they passed.
    """
    shown, passed = ends.astimezone(zone) - starts.astimezone(zone), ends - starts
    return None if shown == passed else "back" if passed > shown else "forward"
