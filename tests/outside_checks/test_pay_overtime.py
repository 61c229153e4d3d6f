"""Overtime against published worked examples."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest

from bot.rules.pay.job_rules import DAILY_OVERTIME, WEEKLY_OVERTIME, JobRules, Rate
from bot.rules.pay.overtime import ONCE, Worked, premium, regular_rate, shares_of_week, straight_pay
from bot.rules.pay.rounding import hundredths
from bot.rules.pay.timesheet import timesheet
from storage.records import OvertimeRules, PayPeriod, Stint
from tests.rules.made import MONDAY

WORKSHOP, MUSEUM = 1, 2


def spread(hours: str, per_hour: str | None, category_id: int = WORKSHOP) -> list[Worked]:
    """The hours of a week, at most ten a day from Monday on."""
    minutes = int(Decimal(hours) * 60)
    days = range(-(-minutes // 600))
    rate = None if per_hour is None else Decimal(per_hour)
    return [Worked(MONDAY + timedelta(days=day), category_id, min(600, minutes - 600 * day), rate) for day in days]


def total(week: list[Worked], bonus: str = "0", rules: OvertimeRules = WEEKLY_OVERTIME) -> Decimal:
    """Straight pay, bonus and overtime of the week, in cents."""
    straight, rate = straight_pay(week), regular_rate(week, Decimal(bonus))
    assert straight is not None
    assert rate is not None
    return hundredths(straight + Fraction(bonus) + sum(premium(share.minutes, share.times, rate) for share in shares_of_week(week, rules)))


@pytest.mark.parametrize(
    ("per_hour", "hours", "pay"),
    [
        ("12.00", "46", "588.00"),  # Source: 29 CFR 778.110(a), text of 2011.
        ("6.00", "46", "294.00"),  # Source: 29 CFR 778.110(a), text of 1981.
        ("8.00", "44", "368.00"),  # Source: Wage and Hour Division, Handy Reference Guide to the FLSA.
    ],
)
def test_hours_over_forty_pay_time_and_a_half(per_hour: str, hours: str, pay: str) -> None:
    assert total(spread(hours, per_hour)) == Decimal(pay)


@pytest.mark.parametrize(
    ("per_hour", "bonus", "rate", "pay"),
    [
        ("12.00", "46.00", "13.00", "637.00"),  # Source: 29 CFR 778.110(b), text of 2011.
        ("6.00", "9.20", "6.20", "303.80"),  # Source: 29 CFR 778.110(b), text of 1981.
    ],
)
def test_a_bonus_counts_towards_the_regular_rate(per_hour: str, bonus: str, rate: str, pay: str) -> None:
    week = spread("46", per_hour)

    assert regular_rate(week, Decimal(bonus)) == Fraction(rate)
    assert total(week, bonus) == Decimal(pay)


def test_piece_work_has_a_regular_rate_too() -> None:
    # Source: Wage and Hour Division, Handy Reference Guide to the FLSA: $315 for 45 hours, $7.00 an hour, $332.50 in all.
    assert total(spread("45", "0"), "315") == Decimal("332.50")


@pytest.mark.parametrize(
    ("one", "other", "rate", "pay"),
    [
        # Source: University of Tennessee, Municipal Technical Advisory Service, MTAS-2096, an example of 29 CFR 778.115; exact.
        (("40", "15.00"), ("8", "9.00"), "14.00", "728.00"),
        # Source: Texas Workforce Commission, Especially for Texas Employers, employees working at two rates: 509.00 and
        # 12.5 hours at half of 9.6952, which come to 569.5952.
        (("44.5", "10.00"), ("8", "8.00"), "9.70", "569.60"),
        # Source: Delaware Employment Law Blog, FLSA 104, example 2: $8.78. It prints a premium of 30.73 from that rounded rate.
        (("21", "8.50"), ("26", "9.00"), "8.78", "443.22"),
        # Source: Cook Brown LLP, 30 January 2026: 884.00 over 42 hours are $21.05; two hours at half of it are 21.05.
        (("32", "22.00"), ("10", "18.00"), "21.05", "905.05"),
        # Source: Seyfarth, Litigating California Wage and Hour Class Actions, 23rd edition, page 95: $20.29.
        # It prints a premium of 20.30 from the rounded rate; exact is 20.29.
        (("30", "20.00"), ("12", "21.00"), "20.29", "872.29"),
    ],
)
def test_two_jobs_of_one_employer_pay_overtime_at_the_weighted_average(
    one: tuple[str, str], other: tuple[str, str], rate: str, pay: str
) -> None:
    week = [*spread(*one), *spread(*other, MUSEUM)]
    average = regular_rate(week)

    assert average is not None
    assert hundredths(average) == Decimal(rate)
    assert total(week) == Decimal(pay)


def stints_of(week: list[Worked]) -> list[Stint]:
    return [Stint(number, each.category_id, each.day, each.minutes) for number, each in enumerate(week, 1)]


def job(category_id: int, employer: str, per_hour: str, period: PayPeriod = PayPeriod.WEEKLY) -> JobRules:
    rates = (Rate(date(2020, 1, 1), Decimal(per_hour)),)
    return JobRules(category_id, f"job {category_id}", employer, period, anchor=MONDAY, rates=rates, overtime=WEEKLY_OVERTIME)


def test_the_timesheets_of_two_jobs_of_one_employer_share_the_overtime() -> None:
    # Source: MTAS-2096, as above: 40 hours at $15 and 8 at $9 pay $728.
    jobs = (job(WORKSHOP, "City Hall", "15"), job(MUSEUM, "CITY HALL", "9"))
    stints = stints_of([*spread("40", None), *spread("8", None, MUSEUM)])

    sheets = [timesheet(each, MONDAY, MONDAY + timedelta(days=6), stints, "UTC", jobs) for each in jobs]

    assert sum(sheet.estimate.gross for sheet in sheets if sheet.estimate) == Decimal("728.00")
    assert sum(each.minutes for sheet in sheets for each in sheet.overtime) == 8 * 60


def test_two_employers_are_kept_apart() -> None:
    # Source: 29 CFR 778.103 totals the hours for one employer; those for another are not part of them.
    jobs = (job(WORKSHOP, "Rolling Spoke", "15"), job(MUSEUM, "Museum", "9"))
    stints = stints_of([*spread("40", None), *spread("8", None, MUSEUM)])

    sheets = [timesheet(each, MONDAY, MONDAY + timedelta(days=6), stints, "UTC", jobs) for each in jobs]

    assert [sheet.estimate.gross for sheet in sheets if sheet.estimate] == [Decimal("600.00"), Decimal("72.00")]
    assert not any(sheet.overtime for sheet in sheets)


def test_each_workweek_stands_alone() -> None:
    # Source: 29 CFR 778.104: 30 hours in one week and 50 in the next are 10 hours of overtime, though 40 is the mean.
    second = [Worked(each.day + timedelta(days=7), each.category_id, each.minutes) for each in spread("50", None)]
    stints = stints_of([*spread("30", None), *second])

    sheet = timesheet(job(WORKSHOP, "Rolling Spoke", "12", PayPeriod.EVERY_TWO_WEEKS), MONDAY, MONDAY + timedelta(days=13), stints, "UTC")

    assert [sum(each.minutes for each in week.overtime) for week in sheet.weeks] == [0, 10 * 60]


def test_daily_overtime_does_not_count_again_towards_the_week() -> None:
    # Source: a worked example of California Labor Code section 510 on study.com: six days of nine hours are 54 hours;
    # 6 hours of daily overtime and 14 of weekly, of which the greater number is paid.
    week = [Worked(MONDAY + timedelta(days=day), WORKSHOP, 9 * 60) for day in range(6)]

    overtime = [share for share in shares_of_week(week, DAILY_OVERTIME) if share.times != ONCE]

    assert sum(share.minutes for share in overtime) == 14 * 60
    assert {share.times for share in overtime} == {Decimal("1.5")}


@pytest.mark.parametrize(
    ("hours", "once", "and_a_half", "double"),
    [
        ([8], 8, 0, 0),  # Source for all: California Labor Code, section 510(a).
        ([12], 8, 4, 0),
        ([14], 8, 4, 2),
        ([8] * 6, 40, 8, 0),
        ([5] * 7, 30, 5, 0),  # The seventh day in a row: its first eight hours pay one and a half times.
        ([5] * 6 + [10], 30, 8, 2),  # And those beyond pay double.
    ],
)
def test_long_days_and_the_seventh_day_pay_more(hours: list[int], once: int, and_a_half: int, double: int) -> None:
    week = [Worked(MONDAY + timedelta(days=day), WORKSHOP, 60 * each) for day, each in enumerate(hours)]
    shares = shares_of_week(week, DAILY_OVERTIME)

    found = [sum(share.minutes for share in shares if share.times == times) // 60 for times in (ONCE, Decimal("1.5"), Decimal(2))]

    assert found == [once, and_a_half, double]
