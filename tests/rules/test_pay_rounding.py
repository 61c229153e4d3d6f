from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.local_time import local
from bot.rules.pay.rounding import decimal_hours, hundredths, nearest, rounded_punch
from storage.records import RoundingStep
from tests.rules.test_local_time import ZONES

STEPS = st.sampled_from(list(RoundingStep))
INSTANTS = st.datetimes(datetime(2012, 1, 1), datetime(2037, 1, 1), timezones=st.just(UTC))


@pytest.mark.parametrize("step", [RoundingStep.FIVE_MINUTES, RoundingStep.QUARTER_HOUR])
def test_rounding_is_neutral_over_all_minutes(step: RoundingStep) -> None:
    assert sum(nearest(minute, step) - minute for minute in range(24 * 60)) == 0


def test_tenths_of_an_hour_favour_the_middle_by_three_minutes_in_six() -> None:
    assert sum(nearest(minute, RoundingStep.TENTH_HOUR) - minute for minute in range(60)) == 10 * 3


@given(st.integers(0, 100_000), STEPS)
def test_a_rounded_number_is_a_multiple_of_the_step_and_no_further_away_than_half_of_it(minutes: int, step: RoundingStep) -> None:
    rounded = nearest(minutes, step)

    assert rounded % step == 0
    assert abs(2 * (rounded - minutes)) <= step
    assert nearest(rounded, step) == rounded


@given(st.integers(0, 10_000), st.integers(0, 10_000), STEPS)
def test_rounding_never_turns_the_order_around(one: int, other: int, step: RoundingStep) -> None:
    assert nearest(min(one, other), step) <= nearest(max(one, other), step)


@given(INSTANTS, STEPS, st.sampled_from([*ZONES, "Asia/Kathmandu"]))
def test_a_rounded_punch_is_one_the_clocks_on_the_wall_show_in_whole_steps(instant: datetime, step: RoundingStep, zone: str) -> None:
    rounded = rounded_punch(instant, step, zone)

    assert local(rounded, zone).minute % step == 0
    assert abs(rounded - instant) < timedelta(minutes=step)


def test_seconds_are_cut_off_before_a_punch_is_rounded() -> None:
    assert rounded_punch(datetime(2026, 3, 2, 8, 7, 59, tzinfo=UTC), RoundingStep.QUARTER_HOUR, "UTC") == datetime(
        2026, 3, 2, 8, tzinfo=UTC
    )


@given(st.integers(0, 100_000))
def test_decimal_hours_are_within_half_a_hundredth(minutes: int) -> None:
    assert abs(Fraction(decimal_hours(minutes)) - Fraction(minutes, 60)) <= Fraction(1, 200)


@pytest.mark.parametrize(("value", "shown"), [("0.005", "0.01"), ("0.0049999999", "0.00"), ("2.675", "2.68"), ("1.005", "1.01")])
def test_half_a_cent_goes_up_where_binary_floats_would_lose_it(value: str, shown: str) -> None:
    assert hundredths(Decimal(value)) == hundredths(Fraction(value)) == Decimal(shown)
