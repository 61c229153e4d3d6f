"""Times of day as the person writes them, by the 24-hour clock or by the 12-hour one: nowhere else in the voice is one written.

By the 12-hour clock twelve o'clock is noon or midnight, for 12 am and 12 pm are taken either way.
Source: NIST, Time and Frequency Division, answers on times of day, "Are noon and midnight 12 a.m. or 12 p.m.?"; from memory.
"""

from __future__ import annotations

import re
from datetime import time
from typing import Final

from storage.records import ClockStyle

NAMED: Final = {(12, 0): "noon", (0, 0): "midnight"}
"""By hour and minute: seconds are never said."""

_TIME: Final = r"(\d{1,2})(?::(\d\d))?"
_TYPED: Final = re.compile(rf"\b{_TIME}-{_TIME}\b|\b(?=\d+:|(?<=until )){_TIME}\b")
"""Hours, a time with its minutes, or an hour until which something lasts."""


def time_text(at: time, style: ClockStyle) -> str:
    """ "13:00", or "1:00 pm"; "noon" and "midnight"."""
    if style is ClockStyle.TWENTY_FOUR:
        return at.isoformat("minutes")
    return NAMED.get((at.hour, at.minute)) or f"{_figures(at)} {_half(at)}"


def span_text(starts: time, ends: time, style: ClockStyle) -> str:
    """ "13:00–17:00", or "9:00 am–1:00 pm"; "1:00–5:00 pm", for a half of the day that holds both ends is said once."""
    if style is ClockStyle.TWENTY_FOUR:
        return f"{starts.isoformat('minutes')}–{ends.isoformat('minutes')}"
    if _in_one_half(starts, ends):
        return f"{_figures(starts)}–{time_text(ends, style)}"
    return f"{time_text(starts, style)}–{time_text(ends, style)}"


def brief_time(at: time, style: ClockStyle) -> str:
    """ "13:00", or "1 pm", for who writes no minutes of a full hour by that clock."""
    return _without_noughts(time_text(at, style), style)


def brief_span(starts: time, ends: time, style: ClockStyle) -> str:
    """ "13:00–17:30", or "1–5:30 pm"."""
    return _without_noughts(span_text(starts, ends, style), style)


def typed(text: str) -> str:
    """A brief time or span by the 12-hour clock as it is typed: "9am", "1-5:30pm"."""
    return text.replace(" ", "").replace("–", "-")


def example_text(example: str, style: ClockStyle) -> str:
    """An example of ours, written by the 24-hour clock, with its times as the person would type them."""
    return example if style is ClockStyle.TWENTY_FOUR else _TYPED.sub(_by_twelve, example)


def _by_twelve(found: re.Match[str]) -> str:
    first, *last = (time(int(found[hour]), int(found[hour + 1] or 0)) for hour in (1, 3, 5) if found[hour])
    return typed(brief_span(first, last[0], ClockStyle.TWELVE) if last else brief_time(first, ClockStyle.TWELVE))


def _without_noughts(text: str, style: ClockStyle) -> str:
    return text if style is ClockStyle.TWENTY_FOUR else text.replace(":00", "")


def _figures(at: time) -> str:
    return f"{at.hour % 12 or 12}:{at.minute:02d}"


def _half(at: time) -> str:
    return "am" if at.hour < 12 else "pm"


def _in_one_half(starts: time, ends: time) -> bool:
    """Whether both ends lie in one half of one day, and neither has a name."""
    named = any((at.hour, at.minute) in NAMED for at in (starts, ends))
    return _half(starts) == _half(ends) and starts < ends and not named
