"""The way to a commitment and back is as little free as the commitment."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.spans import overlap
from bot.rules.travel import Travel, taken, travel_of
from storage.records import Commitment, Occurrence

STARTS = datetime(2026, 3, 5, 14, tzinfo=UTC)
HOUR = timedelta(hours=1)
minutes = st.none() | st.integers(0, 240)


def dentist(before: int | None = None, after: int | None = None, *, all_day: bool = False) -> Commitment:
    return Commitment(1, "dentist", STARTS, STARTS + HOUR, "Europe/Brussels", all_day=all_day, minutes_before=before, minutes_after=after)


def test_what_was_said_of_one_holds_and_else_what_is_usual() -> None:
    assert travel_of(dentist(), 15) == (15, 15)
    assert travel_of(dentist(20), 15) == (20, 15)
    assert travel_of(dentist(20, 0), 15) == (20, 0)


def test_what_is_for_all_of_a_day_has_no_way_to_it() -> None:
    assert travel_of(dentist(20, 20, all_day=True), 15) == (0, 0)


@given(minutes, minutes, st.integers(0, 240))
def test_all_that_is_taken_is_the_commitment_and_the_minutes_around_it(before: int | None, after: int | None, usual: int) -> None:
    span = taken(Occurrence(dentist(before, after), date(2026, 3, 5), STARTS, STARTS + HOUR), usual)
    there, back = travel_of(dentist(before, after), usual)
    assert span.minutes == 60 + there + back
    assert span.starts <= STARTS < STARTS + HOUR <= span.ends
    assert overlap(span, Occurrence(dentist(), date(2026, 3, 5), STARTS, STARTS + HOUR))


def test_a_way_of_no_minutes_was_said_all_the_same() -> None:
    assert Travel(0, 0)
    assert not Travel()
