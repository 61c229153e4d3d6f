"""Which days a span is compared with, and which parts a long one falls into."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from bot.rules.weeks import first_of_month, last_of_month

MOST_MONTHS: Final = 12
"""A longer span is shown by the year, so that it fits a phone."""


def span_before(first: date, last: date, today: date) -> tuple[date, date] | None:
    """First and last day of what the span from ``first`` to ``last`` is compared with; None where the calendar has no such days.

    Of whole months that is as many months before, of other spans as many days
    before. A span that is not over at the end of ``today`` is compared with
    as many days from the start of the one before. Source: common practice, no source.
    """
    begins = _begins(first, last)
    if begins is None:
        return None
    ends = first - timedelta(days=1)
    return (begins, min(ends, begins + (today - first))) if first <= today < last else (begins, ends)


def _begins(first: date, last: date) -> date | None:
    months = whole_months(first, last)
    if months:
        number = first.year * 12 + first.month - 1 - months
        return date(number // 12, number % 12 + 1, 1) if number >= 12 else None
    ordinal = first.toordinal() - (last - first).days - 1
    return date.fromordinal(ordinal) if ordinal > 0 else None


def whole_months(first: date, last: date) -> int:
    """How many calendar months the span is made of, 0 when it is made of none."""
    if first != first_of_month(first) or last != last_of_month(last):
        return 0
    return (last.year - first.year) * 12 + last.month - first.month + 1


def parts_of(first: date, last: date) -> tuple[tuple[date, date], ...]:
    """First and last day of the months or years of a long span, each cut to the span; none of one that touches two months at most."""
    if _months_touched(first, last) <= 2:
        return ()
    by_year = parted_by_year(first, last)
    parts = []
    while True:
        ends = min(last, date(first.year, 12, 31) if by_year else last_of_month(first))
        parts.append((first, ends))
        if ends == last:
            return tuple(parts)
        first = ends + timedelta(days=1)


def parted_by_year(first: date, last: date) -> bool:
    """Whether a long span is shown by the year rather than by the month."""
    return _months_touched(first, last) > MOST_MONTHS


def _months_touched(first: date, last: date) -> int:
    return (last.year - first.year) * 12 + last.month - first.month + 1
