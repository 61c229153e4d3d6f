"""What a span is compared with, and the parts of a long one."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.span_before import parts_of, span_before

LATER = date(2030, 1, 1)
DAYS = st.dates(date(1990, 1, 1), date(2040, 12, 31))


def span(first: str, last: str) -> tuple[date, date]:
    return date.fromisoformat(first), date.fromisoformat(last)


@pytest.mark.parametrize(
    ("asked", "before"),
    [
        (span("2026-03-02", "2026-03-08"), span("2026-02-23", "2026-03-01")),
        (span("2026-03-03", "2026-03-03"), span("2026-03-02", "2026-03-02")),
        (span("2026-03-01", "2026-03-31"), span("2026-02-01", "2026-02-28")),
        (span("2024-03-01", "2024-03-31"), span("2024-02-01", "2024-02-29")),
        (span("2026-01-01", "2026-03-31"), span("2025-10-01", "2025-12-31")),
        (span("2026-01-01", "2026-12-31"), span("2025-01-01", "2025-12-31")),
        (span("2026-03-02", "2026-03-15"), span("2026-02-16", "2026-03-01")),
    ],
)
def test_whole_months_are_compared_with_months_and_days_with_days(asked: tuple[date, date], before: tuple[date, date]) -> None:
    assert span_before(*asked, LATER) == before


def test_what_is_not_over_is_compared_with_as_many_days() -> None:
    assert span_before(*span("2026-03-02", "2026-03-08"), date(2026, 3, 3)) == span("2026-02-23", "2026-02-24")
    assert span_before(*span("2026-01-01", "2026-12-31"), date(2026, 3, 3)) == span("2025-01-01", "2025-03-03")
    assert span_before(*span("2026-03-01", "2026-03-31"), date(2026, 3, 30)) == span("2026-02-01", "2026-02-28")


def test_before_the_calendar_there_is_nothing() -> None:
    assert span_before(date.min, date.min + timedelta(days=3), LATER) is None
    assert span_before(date(1, 1, 1), date(1, 12, 31), LATER) is None


@given(DAYS, DAYS, DAYS)
def test_the_span_before_is_over_when_the_span_begins(one: date, other: date, today: date) -> None:
    first, last = min(one, other), max(one, other)
    before = span_before(first, last, today)
    assert before is not None
    assert before[0] <= before[1] < first
    if last <= today:
        assert before[1] == first - timedelta(days=1)


@given(DAYS, DAYS)
def test_the_parts_of_a_span_cover_it_once(one: date, other: date) -> None:
    first, last = min(one, other), max(one, other)
    parts = parts_of(first, last)
    if not parts:
        assert (last.year - first.year) * 12 + last.month - first.month < 2
        return
    assert parts[0][0] == first
    assert parts[-1][1] == last
    assert all(begins <= ends for begins, ends in parts)
    assert all(earlier[1] + timedelta(days=1) == later[0] for earlier, later in pairwise(parts))


def test_up_to_a_year_goes_by_month_and_more_by_year() -> None:
    assert len(parts_of(*span("2026-01-01", "2026-12-31"))) == 12
    assert parts_of(*span("2025-12-31", "2027-01-01")) == (
        span("2025-12-31", "2025-12-31"),
        span("2026-01-01", "2026-12-31"),
        span("2027-01-01", "2027-01-01"),
    )
    assert parts_of(*span("2026-03-02", "2026-04-08")) == ()
