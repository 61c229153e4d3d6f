"""Occurrences beside the examples of RFC 5545, section 3.8.5.3.

All of them start on 2 September 1997 or later at 9:00 AM in New York and last
an hour here; the days are those that the RFC lists after each rule.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from time import perf_counter

import pytest
from dateutil.rrule import rrulestr
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.occurrences import RuleFault, occurrences, own_day, touching
from tests.rules.made import BRUSSELS, commitment, wall

NEW_YORK = "America/New_York"


def days(month: int, *numbers: int, year: int = 1997) -> list[date]:
    """Days of one month."""
    return [date(year, month, number) for number in numbers]


# start, rule, last day looked at, days that the RFC lists up to then
RFC_EXAMPLES: list[tuple[str, str, date, list[date]]] = [
    ("1997-09-02", "FREQ=DAILY;COUNT=10", date(1998, 1, 1), days(9, *range(2, 12))),
    (
        "1997-09-02",
        "FREQ=DAILY;UNTIL=19971224T000000Z",
        date(1998, 1, 1),
        days(9, *range(2, 31)) + days(10, *range(1, 32)) + days(11, *range(1, 31)) + days(12, *range(1, 24)),
    ),
    ("1997-09-02", "FREQ=DAILY;INTERVAL=2", date(1997, 9, 12), days(9, 2, 4, 6, 8, 10, 12)),
    ("1997-09-02", "FREQ=DAILY;INTERVAL=10;COUNT=5", date(1998, 1, 1), days(9, 2, 12, 22) + days(10, 2, 12)),
    ("1997-09-02", "FREQ=WEEKLY;COUNT=10", date(1998, 1, 1), days(9, 2, 9, 16, 23, 30) + days(10, 7, 14, 21, 28) + days(11, 4)),
    (
        "1997-09-02",
        "FREQ=WEEKLY;UNTIL=19971224T000000Z",
        date(1998, 1, 1),
        days(9, 2, 9, 16, 23, 30) + days(10, 7, 14, 21, 28) + days(11, 4, 11, 18, 25) + days(12, 2, 9, 16, 23),
    ),
    ("1997-09-02", "FREQ=WEEKLY;INTERVAL=2;WKST=SU", date(1997, 10, 30), days(9, 2, 16, 30) + days(10, 14, 28)),
    (
        "1997-09-02",
        "FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH",
        date(1998, 1, 1),
        days(9, 2, 4, 9, 11, 16, 18, 23, 25, 30) + days(10, 2),
    ),
    (
        "1997-09-01",
        "FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR",
        date(1998, 1, 1),
        days(9, 1, 3, 5, 15, 17, 19, 29)
        + days(10, 1, 3, 13, 15, 17, 27, 29, 31)
        + days(11, 10, 12, 14, 24, 26, 28)
        + days(12, 8, 10, 12, 22),
    ),
    (
        "1997-09-05",
        "FREQ=MONTHLY;COUNT=10;BYDAY=1FR",
        date(1998, 12, 31),
        days(9, 5)
        + days(10, 3)
        + days(11, 7)
        + days(12, 5)
        + [date(1998, 1, 2), date(1998, 2, 6), date(1998, 3, 6)]
        + [date(1998, 4, 3), date(1998, 5, 1), date(1998, 6, 5)],
    ),
    (
        "1997-09-22",
        "FREQ=MONTHLY;COUNT=6;BYDAY=-2MO",
        date(1998, 12, 31),
        days(9, 22) + days(10, 20) + days(11, 17) + days(12, 22) + [date(1998, 1, 19), date(1998, 2, 16)],
    ),
    ("1997-09-28", "FREQ=MONTHLY;BYMONTHDAY=-3", date(1998, 1, 1), days(9, 28) + days(10, 29) + days(11, 28) + days(12, 29)),
    ("1997-09-30", "FREQ=MONTHLY;COUNT=4;BYMONTHDAY=1,-1", date(1998, 1, 1), days(9, 30) + days(10, 1, 31) + days(11, 1)),
    (
        "1997-06-10",
        "FREQ=YEARLY;COUNT=6;BYMONTH=6,7",
        date(2002, 1, 1),
        [date(year, month, 10) for year in (1997, 1998, 1999) for month in (6, 7)],
    ),
    ("1997-05-12", "FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO", date(1999, 12, 31), [date(1997, 5, 12), date(1998, 5, 11), date(1999, 5, 17)]),
    (
        "1997-09-13",
        "FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13",
        date(1998, 1, 31),
        days(9, 13) + days(10, 11) + days(11, 8) + days(12, 13) + [date(1998, 1, 10)],
    ),
    ("1997-09-04", "FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3", date(1998, 1, 1), days(9, 4) + days(10, 7) + days(11, 6)),
    # The two rules that differ in the first day of the week only.
    ("1997-08-05", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", date(1998, 1, 1), days(8, 5, 10, 19, 24)),
    ("1997-08-05", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", date(1998, 1, 1), days(8, 5, 17, 19, 31)),
    # A day that February does not have is passed over.
    (
        "2007-01-15",
        "FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5",
        date(2008, 1, 1),
        [date(2007, 1, 15), date(2007, 1, 30), date(2007, 2, 15), date(2007, 3, 15), date(2007, 3, 30)],
    ),
]


@pytest.mark.parametrize(("start", "rule", "last", "listed"), RFC_EXAMPLES)
def test_a_rule_of_the_rfc_takes_place_on_the_days_it_lists(start: str, rule: str, last: date, listed: list[date]) -> None:
    meeting = commitment(f"{start} 09:00", f"{start} 10:00", zone=NEW_YORK, rule=rule)

    found = occurrences([meeting], date(1997, 1, 1), last)

    assert [each.day for each in found] == listed
    assert all(each.starts == wall(f"{each.day} 09:00", NEW_YORK) for each in found)


@pytest.mark.parametrize(("start", "rule", "last", "listed"), RFC_EXAMPLES)
def test_a_window_far_from_the_start_holds_the_same_days(start: str, rule: str, last: date, listed: list[date]) -> None:
    meeting = commitment(f"{start} 09:00", f"{start} 10:00", zone=NEW_YORK, rule=rule)

    by_window = [each.day for day in listed for each in occurrences([meeting], day, day)]

    assert by_window == listed


RULES = st.builds(
    "FREQ={};INTERVAL={};WKST={}{}".format,
    st.sampled_from(["DAILY", "WEEKLY", "MONTHLY", "YEARLY"]),
    st.integers(1, 5),
    st.sampled_from(["MO", "SU"]),
    st.sampled_from(["", ";BYDAY=MO,TH", ";BYDAY=TU,FR,SU;BYSETPOS=-1"]),
)


@given(RULES, st.dates(date(2024, 1, 1), date(2026, 1, 1)), st.dates(date(2026, 1, 1), date(2026, 9, 1)))
def test_a_window_holds_what_the_whole_expansion_holds_there(rule: str, start: date, first: date) -> None:
    meeting = commitment(f"{start} 09:00", f"{start} 10:30", rule=rule)
    whole = occurrences([meeting], start, date(2026, 10, 1))

    last = first + timedelta(days=20)

    assert occurrences([meeting], first, last) == tuple(each for each in whole if first <= each.day <= last)


NAMES = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
OF_WEEKDAYS = st.builds(
    "FREQ={}{}{}".format,
    st.sampled_from(["DAILY", "WEEKLY"]),
    st.sampled_from(["", ";INTERVAL=1"]),
    st.one_of(st.just(""), st.lists(st.sampled_from(NAMES), min_size=1).map(lambda names: f";BYDAY={','.join(names)}")),
)


@given(OF_WEEKDAYS, st.datetimes(datetime(2025, 1, 1), datetime(2026, 6, 1)), st.dates(date(2025, 1, 1), date(2026, 6, 1)))
def test_a_rule_of_weekdays_alone_takes_place_when_dateutil_says(rule: str, start: datetime, first: date) -> None:
    # Source: dateutil's rrule, which we read all other rules with.
    start = start.replace(second=0, microsecond=0)
    last = first + timedelta(days=9)
    said = rrulestr(rule, dtstart=start).between(datetime.combine(first, time.min), datetime.combine(last, time(23, 59)), inc=True)

    meeting = commitment(f"{start:%Y-%m-%d %H:%M}", f"{start + timedelta(hours=1):%Y-%m-%d %H:%M}", zone="UTC", rule=rule)

    assert [each.starts.replace(tzinfo=None) for each in occurrences([meeting], first, last)] == said


def test_a_recurring_commitment_keeps_its_wall_clock_at_both_ends_across_a_clock_change() -> None:
    night = commitment("2026-03-21 22:00", "2026-03-22 06:00", rule="FREQ=WEEKLY;BYDAY=SA")

    found = occurrences([night], date(2026, 3, 28), date(2026, 3, 28))

    assert [(each.starts, each.ends) for each in found] == [(wall("2026-03-28 22:00"), wall("2026-03-29 06:00"))]
    assert found[0].ends - found[0].starts == timedelta(hours=7)


def test_an_occurrence_in_a_skipped_hour_takes_place_an_hour_later_and_keeps_an_end_after_its_start() -> None:
    # Source: RFC 5545, section 3.3.5, for the start; our own choice for the end.
    early = commitment("2026-03-28 02:30", "2026-03-28 03:15", rule="FREQ=DAILY")

    found = occurrences([early], date(2026, 3, 29), date(2026, 3, 29))

    assert [(each.starts, each.ends) for each in found] == [(wall("2026-03-29 03:30"), wall("2026-03-29 04:15"))]


def test_the_first_occurrence_keeps_the_very_instants_that_were_kept() -> None:
    second_half_past_two = wall("2026-10-25 02:30") + timedelta(hours=1)
    night = replace(
        commitment("2026-10-25 02:30", "2026-10-25 03:00", rule="FREQ=DAILY"),
        starts=second_half_past_two,
        ends=second_half_past_two + timedelta(minutes=30),
    )

    assert occurrences([night], date(2026, 10, 25), date(2026, 10, 25))[0].starts == second_half_past_two


def test_excepted_days_and_cancelled_commitments_are_left_out() -> None:
    shift = commitment("2026-03-02 13:00", "2026-03-02 17:00", rule="FREQ=DAILY")
    without_tuesday = replace(shift, except_days=(date(2026, 3, 3),))

    found = occurrences([without_tuesday], date(2026, 3, 2), date(2026, 3, 4))

    assert [each.day for each in found] == [date(2026, 3, 2), date(2026, 3, 4)]
    assert occurrences([replace(shift, cancelled=True)], date(2026, 3, 2), date(2026, 3, 4)) == ()


def test_a_single_commitment_takes_place_once_and_may_be_excepted() -> None:
    dentist = commitment("2026-03-03 09:00", "2026-03-03 09:45")

    assert [each.day for each in occurrences([dentist], date(2026, 3, 2), date(2026, 3, 8))] == [date(2026, 3, 3)]
    assert occurrences([dentist], date(2026, 3, 4), date(2026, 3, 8)) == ()
    assert occurrences([replace(dentist, except_days=(date(2026, 3, 3),))], date(2026, 3, 2), date(2026, 3, 8)) == ()


def test_days_are_those_of_the_zone_that_is_asked_for() -> None:
    call = commitment("2026-03-03 03:00", "2026-03-03 04:00")

    seen_from_new_york = occurrences([call], date(2026, 3, 2), date(2026, 3, 2), NEW_YORK)

    assert [each.day for each in seen_from_new_york] == [date(2026, 3, 2)]
    assert own_day(seen_from_new_york[0]) == date(2026, 3, 3)
    assert occurrences([call], date(2026, 3, 2), date(2026, 3, 2), BRUSSELS) == ()


def test_touching_finds_what_runs_in_from_the_day_before_and_occurrences_does_not() -> None:
    night = commitment("2026-03-02 22:00", "2026-03-03 06:00")
    until_midnight = commitment("2026-03-02 22:00", "2026-03-03 00:00", id=2)

    assert occurrences([night, until_midnight], date(2026, 3, 3), date(2026, 3, 3)) == ()
    assert [each.commitment.id for each in touching([night, until_midnight], date(2026, 3, 3), date(2026, 3, 3))] == [1]
    assert len(touching([night, until_midnight], date(2026, 3, 2), date(2026, 3, 2))) == 2


def test_occurrences_come_earliest_first() -> None:
    late = commitment("2026-03-02 13:00", "2026-03-02 17:00", id=1)
    early = commitment("2026-03-02 09:00", "2026-03-02 12:00", id=2)

    assert [each.commitment.id for each in occurrences([late, early], date(2026, 3, 2), date(2026, 3, 2))] == [2, 1]


def test_no_days_hold_no_occurrences() -> None:
    assert occurrences([commitment("2026-03-02 13:00", "2026-03-02 17:00")], date(2026, 3, 3), date(2026, 3, 2)) == ()


@pytest.mark.parametrize(
    ("rule", "last"),
    [
        ("FREQ=DAILY;UNTIL=20260304", date(2026, 3, 4)),
        ("FREQ=DAILY;UNTIL=20260304T090000", date(2026, 3, 4)),
        ("FREQ=DAILY;UNTIL=20260304T085959", date(2026, 3, 3)),
        ("FREQ=DAILY;UNTIL=20260304T080000Z", date(2026, 3, 4)),
        ("FREQ=DAILY;UNTIL=20260304T075959Z", date(2026, 3, 3)),
        ("freq=daily;until=20260304T080000Z", date(2026, 3, 4)),
    ],
)
def test_until_is_read_on_the_commitments_own_clocks(rule: str, last: date) -> None:
    # Source: RFC 5545, section 3.3.10: UNTIL bounds the rule inclusively; 09:00 in Brussels is 08:00 UTC in March.
    shift = commitment("2026-03-02 09:00", "2026-03-02 12:00", rule=rule)

    assert occurrences([shift], date(2026, 3, 2), date(2026, 3, 10))[-1].day == last


@pytest.mark.parametrize(
    "rule",
    [
        "",
        "every day",
        "FREQ=SOMETIMES",
        "FREQ=DAILY;FREQ=WEEKLY",
        "FREQ=DAILY;INTERVAL=0",
        "FREQ=DAILY;INTERVAL=two",
        "FREQ=DAILY;UNTIL=soon",
        "FREQ=DAILY;UNTIL=20260230",
        "FREQ=WEEKLY;BYDAY=XX",
        "INTERVAL=2",
    ],
)
def test_a_rule_that_cannot_be_read_is_refused_with_its_text(rule: str) -> None:
    with pytest.raises(RuleFault) as caught:
        occurrences([commitment("2026-03-02 09:00", "2026-03-02 10:00", rule=rule)], date(2026, 3, 2), date(2026, 3, 8))

    assert caught.value.rule == rule


def test_a_rule_of_many_years_ago_costs_no_more_than_a_new_one() -> None:
    old = [commitment("1990-01-01 09:00", "1990-01-01 10:00", id=number, rule="FREQ=DAILY") for number in range(100)]

    before = perf_counter()
    found = occurrences(old, date(2026, 3, 2), date(2026, 3, 8))

    assert len(found) == 700
    # Walking all the 13,000 days of each rule took almost five seconds here, this a twentieth of one.
    assert perf_counter() - before < 2


@given(st.datetimes(datetime(2026, 1, 1), datetime(2026, 12, 31)), st.integers(1, 3 * 24 * 60))
def test_each_occurrence_belongs_to_exactly_one_day(start: datetime, minutes: int) -> None:
    ends = start + timedelta(minutes=minutes)
    one = commitment(f"{start:%Y-%m-%d %H:%M}", f"{ends:%Y-%m-%d %H:%M}")
    around = [start.date() + timedelta(days=number) for number in range(-4, 5)]

    assert sum(len(occurrences([one], day, day)) for day in around) == 1
