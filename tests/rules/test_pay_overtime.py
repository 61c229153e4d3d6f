from __future__ import annotations

from collections import Counter
from datetime import timedelta
from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.pay.job_rules import DAILY_OVERTIME, WEEKLY_OVERTIME
from bot.rules.pay.overtime import ONCE, Share, Worked, premium, regular_rate, shares_of_week, straight_pay
from storage.records import Limit, OvertimeRules
from tests.rules.made import MONDAY

WORKSHOP, MUSEUM = 1, 2
RULES = st.sampled_from([WEEKLY_OVERTIME, DAILY_OVERTIME, OvertimeRules()])
WEEKS = st.lists(
    st.builds(
        Worked,
        st.integers(0, 6).map(lambda day: MONDAY + timedelta(days=day)),
        st.sampled_from([WORKSHOP, MUSEUM]),
        st.integers(0, 900),
        st.decimals("1", "99", places=2),
    ),
    max_size=14,
)


def worked(day: int, hours: int, category_id: int = WORKSHOP, per_hour: str | None = None) -> Worked:
    return Worked(MONDAY + timedelta(days=day), category_id, 60 * hours, Decimal(per_hour) if per_hour else None)


def test_the_latest_hours_of_the_week_are_the_overtime() -> None:
    week = [worked(day, 9) for day in range(5)]

    overtime = [share for share in shares_of_week(week, WEEKLY_OVERTIME) if share.times != ONCE]

    assert overtime == [Share(week[4], 5 * 60, Decimal("1.5"))]


def test_of_a_day_with_two_jobs_the_later_one_is_overtime() -> None:
    week = [*(worked(day, 9) for day in range(4)), worked(4, 4), worked(4, 3, MUSEUM)]

    overtime = [share for share in shares_of_week(week, WEEKLY_OVERTIME) if share.times != ONCE]

    assert [(share.worked.category_id, share.minutes) for share in overtime] == [(MUSEUM, 3 * 60)]


def test_a_week_may_have_two_limits() -> None:
    rules = OvertimeRules(weekly=(Limit(40 * 60, Decimal("1.25")), Limit(48 * 60, Decimal("1.5"))))

    minutes: Counter[Decimal] = Counter()
    for share in shares_of_week([worked(day, 10) for day in range(5)], rules):
        minutes[share.times] += share.minutes

    assert minutes == {ONCE: 2400, Decimal("1.25"): 480, Decimal("1.5"): 120}


def test_a_day_off_means_there_is_no_seventh_day_in_a_row() -> None:
    week = [worked(day, 5) for day in range(7) if day != 2]

    assert all(share.times == ONCE for share in shares_of_week(week, DAILY_OVERTIME))


def test_without_a_rate_nothing_is_said_of_money() -> None:
    week = [worked(0, 8, per_hour="12"), worked(1, 8)]

    assert straight_pay(week) is None
    assert regular_rate(week) is None
    assert regular_rate([]) is None


@given(WEEKS, RULES)
def test_every_minute_is_in_exactly_one_share(week: list[Worked], rules: OvertimeRules) -> None:
    shares = shares_of_week(week, rules)

    by_work: Counter[tuple[object, int]] = Counter()
    for share in shares:
        by_work[share.worked.day, share.worked.category_id] += share.minutes
    expected: Counter[tuple[object, int]] = Counter()
    for each in week:
        expected[each.day, each.category_id] += each.minutes
    assert by_work == +expected


@given(WEEKS)
def test_daily_limits_never_pay_less_than_the_weekly_one(week: list[Worked]) -> None:
    daily, weekly = (
        sum(premium(share.minutes, share.times, Fraction(1)) for share in shares_of_week(week, rules))
        for rules in (DAILY_OVERTIME, WEEKLY_OVERTIME)
    )

    assert daily >= weekly


@given(WEEKS)
def test_no_more_than_forty_hours_pay_once(week: list[Worked]) -> None:
    once = sum(share.minutes for share in shares_of_week(week, DAILY_OVERTIME) if share.times == ONCE)

    assert once <= 40 * 60


@given(WEEKS)
def test_the_regular_rate_lies_between_the_lowest_and_the_highest(week: list[Worked]) -> None:
    rates = [each.per_hour for each in week if each.minutes and each.per_hour is not None]
    average = regular_rate(week)

    assert average is None if not rates else average is not None and min(rates) <= average <= max(rates)
