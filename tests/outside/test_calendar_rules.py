"""Recurrence rules, walked: beside python-dateutil, and where they never come true or never end."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import islice
from zoneinfo import ZoneInfo

import pytest
from dateutil.rrule import rrulestr
from hypothesis import given
from hypothesis import strategies as st

from bot.outside.calendars.limits import Allowance, TooMuchWork
from bot.outside.calendars.rules import Frequency, read_rule
from bot.outside.calendars.walking import walk
from bot.rules.occurrences import RuleFault
from bot.rules.weeks import DAY_CODES

BRUSSELS = ZoneInfo("Europe/Brussels")
Parts = dict[str, st.SearchStrategy[str]]
PLENTY = 5_000_000
WHOLE_DAYS = (Frequency.YEARLY, Frequency.MONTHLY, Frequency.WEEKLY, Frequency.DAILY)
WEEKDAY_LISTS = st.lists(st.sampled_from(DAY_CODES), min_size=1, max_size=3, unique=True).map(",".join)

# The last years that can be counted: dateutil looks for a next recurrence until
# they are over, so that a rule that never comes true takes it long elsewhere.
LAST_YEARS = datetime(9985, 1, 1)
LAST_START = datetime(9989, 1, 1)


def walked(text: str, first: datetime, opens: datetime, closes: datetime, steps: int = PLENTY) -> list[datetime]:
    """The recurrences of the rule ``text`` in UTC."""
    return list(walk(read_rule(text, UTC), first, opens, closes, Allowance(steps)))


def some(low: int, high: int, *, signed: bool = False) -> st.SearchStrategy[str]:
    """A list of numbers as a rule writes it."""
    numbers = st.integers(low, high)
    if signed:
        numbers = numbers | st.integers(-high, -low)
    return st.lists(numbers, min_size=1, max_size=3, unique=True).map(lambda each: ",".join(map(str, each)))


@st.composite
def rules(draw: st.DrawFn, frequency: Frequency) -> str:
    """A rule whose periods are days or longer, of the parts that RFC 5545 allows for its frequency."""
    parts = {"INTERVAL": str(draw(st.integers(1, 5))), "WKST": draw(st.sampled_from(DAY_CODES))}
    optional: Parts = {"BYMONTH": some(1, 12), "BYHOUR": some(0, 23), "BYMINUTE": some(0, 59)}
    optional["BYDAY"] = WEEKDAY_LISTS
    if frequency <= Frequency.MONTHLY:
        optional["BYDAY"] = WEEKDAY_LISTS | st.tuples(st.integers(-5, 5).filter(bool), st.sampled_from(DAY_CODES)).map(
            lambda each: f"{each[0]}{each[1]}"
        )
    if frequency != Frequency.WEEKLY:
        optional["BYMONTHDAY"] = some(1, 31, signed=True)
    if frequency == Frequency.YEARLY:
        optional["BYYEARDAY"] = some(1, 366, signed=True)
    chosen = draw(st.lists(st.sampled_from(sorted(optional)), max_size=3, unique=True))
    parts |= {name: draw(optional[name]) for name in chosen}
    if draw(st.booleans()) and chosen:
        parts["BYSETPOS"] = draw(some(1, 4, signed=True))
    if draw(st.booleans()):
        parts["COUNT"] = str(draw(st.integers(1, 40)))
    return ";".join([f"FREQ={frequency.name}", *(f"{name}={value}" for name, value in parts.items())])


@st.composite
def hours_of_the_day(draw: st.DrawFn) -> str:
    """A rule whose periods are hours or minutes, on any day: dateutil would walk all of time for a day that never comes."""
    text = f"FREQ={draw(st.sampled_from(['HOURLY', 'MINUTELY']))};INTERVAL={draw(st.integers(1, 400))}"
    if draw(st.booleans()):
        text += f";BYHOUR={draw(some(0, 23))}"
    if draw(st.booleans()):
        text += f";BYMINUTE={draw(some(0, 59))}"
    if draw(st.booleans()):
        text += f";COUNT={draw(st.integers(1, 40))}"
    return text


@st.composite
def days_of_the_year(draw: st.DrawFn) -> str:
    """What rules days out, as parts of a rule."""
    parts: Parts = {
        "BYMONTH": some(1, 12),
        "BYMONTHDAY": some(1, 31, signed=True),
        "BYYEARDAY": some(1, 366, signed=True),
        "BYDAY": WEEKDAY_LISTS,
    }
    chosen = draw(st.lists(st.sampled_from(sorted(parts)), min_size=1, max_size=2, unique=True))
    return ";".join(f"{name}={draw(parts[name])}" for name in chosen)


starts = st.datetimes(LAST_YEARS, LAST_START).map(lambda each: each.replace(microsecond=0))


@given(st.sampled_from(WHOLE_DAYS).flatmap(rules), starts, st.integers(0, 2000))
def test_a_rule_recurs_when_dateutil_says_so(text: str, first: datetime, days_on: int) -> None:
    if "FREQ=WEEKLY" in text and "BYSETPOS" in text:
        # Positions are those in a whole week (RFC 5545, section 3.3.10); dateutil counts in the first one from its start on.
        first -= timedelta(days=(first.weekday() - DAY_CODES.index(text.partition("WKST=")[2][:2])) % 7)
    opens = first + timedelta(days=days_on)
    closes = opens + timedelta(days=500)
    expected = [wall for wall in rrulestr(text, dtstart=first).between(opens, closes, inc=True) if wall < closes]
    assert walked(text, first, opens, closes) == expected


@given(hours_of_the_day(), starts, st.integers(0, 40))
def test_a_rule_within_days_recurs_when_dateutil_says_so(text: str, first: datetime, days_on: int) -> None:
    opens = first + timedelta(days=days_on)
    closes = opens + timedelta(days=2)
    try:
        expected = rrulestr(text, dtstart=first).between(opens, closes, inc=True)
    except ValueError:
        # So it says that its hours are never met.
        expected = []
    assert walked(text, first, opens, closes) == [wall for wall in expected if wall < closes]


@given(days_of_the_year(), st.datetimes(datetime(2020, 1, 1), datetime(2030, 1, 1)))
def test_within_days_only_the_days_of_the_rule_are_taken(days: str, first: datetime) -> None:
    first = first.replace(hour=0, minute=30, second=0, microsecond=0)
    closes = (first + timedelta(days=60)).replace(hour=0, minute=0)
    on_days = {wall.date() for wall in walked(f"FREQ=DAILY;{days}", first, first, closes)}
    every_time = walked("FREQ=HOURLY;INTERVAL=5", first, first, closes)
    assert walked(f"FREQ=HOURLY;INTERVAL=5;{days}", first, first, closes) == [wall for wall in every_time if wall.date() in on_days]


@given(st.sampled_from(WHOLE_DAYS).flatmap(rules) | hours_of_the_day(), st.datetimes(datetime(2024, 1, 1), datetime(2026, 2, 20)))
def test_a_later_window_shows_the_same_recurrences(text: str, first: datetime) -> None:
    first = first.replace(microsecond=0)
    opens, closes = datetime(2026, 3, 1), datetime(2026, 3, 8)
    # Minutes of two years are more than a test should walk.
    first = max(first, datetime(2026, 2, 1)) if "MINUTELY" in text else first
    assert walked(text, first, opens, closes) == [wall for wall in walked(text, first, first, closes) if wall >= opens]


@pytest.mark.parametrize("period", ["YEARLY", "MONTHLY", "WEEKLY", "DAILY", "HOURLY", "MINUTELY", "SECONDLY"])
def test_a_rule_that_never_comes_true_takes_no_longer_than_the_days_looked_at(period: str) -> None:
    text = f"FREQ={period};BYMONTH=2;BYMONTHDAY=30"
    assert walked(text, datetime(1970, 1, 1), datetime(2026, 1, 1), datetime(2028, 1, 1), steps=800) == []


def test_a_rule_without_end_stops_at_the_end_of_the_window() -> None:
    found = walked("FREQ=DAILY", datetime(1970, 1, 1, 9), datetime(2026, 1, 1), datetime(2026, 1, 4), steps=10)
    assert found == [datetime(2026, 1, day, 9) for day in (1, 2, 3)]


def test_counting_from_long_ago_in_seconds_is_too_much_work() -> None:
    with pytest.raises(TooMuchWork):
        walked("FREQ=SECONDLY;COUNT=999999999", datetime(1970, 1, 1), datetime(2026, 1, 1), datetime(2028, 1, 1), steps=100_000)


def test_a_hundred_thousand_times_a_day_are_taken_one_by_one() -> None:
    many = ",".join(map(str, range(60)))
    rule = read_rule(f"FREQ=DAILY;BYHOUR={','.join(map(str, range(24)))};BYMINUTE={many};BYSECOND={many}", UTC)
    found = walk(rule, datetime(2026, 1, 1), datetime(2026, 1, 1), datetime(2028, 1, 1), Allowance(100_000))
    assert list(islice(found, 3)) == [datetime(2026, 1, 1, 0, 0, second) for second in range(3)]


def test_a_week_number_alone_recurs_on_the_weekday_of_the_start() -> None:
    # RFC 5545, section 3.3.10: what the rule leaves open is taken from DTSTART. 2026-03-03 is the Tuesday of week 10.
    found = walked("FREQ=YEARLY;BYWEEKNO=10", datetime(2026, 3, 3, 9), datetime(2026, 1, 1), datetime(2028, 1, 1))
    assert found == [datetime(2026, 3, 3, 9), datetime(2027, 3, 9, 9)]


@pytest.mark.parametrize(
    ("until", "last_day"),
    [
        ("20260303", 3),
        ("20260303T080000Z", 3),
        ("20260303T075959Z", 2),
        ("20260303T090000", 3),
        ("20260303T085959", 2),
    ],
)
def test_until_is_the_last_moment_on_the_clock_of_the_event(until: str, last_day: int) -> None:
    # 9:00 in Brussels is 8:00 UTC in winter.
    rule = read_rule(f"FREQ=DAILY;UNTIL={until}", BRUSSELS)
    found = list(walk(rule, datetime(2026, 3, 1, 9), datetime(2026, 3, 1), datetime(2026, 4, 1), Allowance(PLENTY)))
    assert found[-1] == datetime(2026, 3, last_day, 9)


def test_seconds_may_be_picked_out() -> None:
    found = walked("FREQ=SECONDLY;INTERVAL=7;BYMINUTE=1;BYSECOND=1,8,30", datetime(2026, 3, 1), datetime(2026, 3, 1), datetime(2026, 3, 2))
    every = (datetime(2026, 3, 1) + timedelta(seconds=seconds) for seconds in range(0, 24 * 3600, 7))
    assert found == [wall for wall in every if wall.minute == 1 and wall.second in (1, 8, 30)]


def test_until_with_a_time_means_its_day_for_whole_days() -> None:
    rule = read_rule("FREQ=DAILY;UNTIL=20260303T230000Z", None)
    found = list(walk(rule, datetime(2026, 3, 1), datetime(2026, 3, 1), datetime(2026, 4, 1), Allowance(PLENTY)))
    assert [wall.day for wall in found] == [1, 2, 3]


def test_a_negative_count_counts_as_none() -> None:
    assert read_rule("FREQ=DAILY;COUNT=-1", UTC).count is None


def test_case_spaces_and_a_last_semicolon_do_no_harm() -> None:
    assert read_rule("freq=weekly; byday=MO, TU;", UTC) == read_rule("FREQ=WEEKLY;BYDAY=MO,TU", UTC)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "DAILY",
        "FREQ=FORTNIGHTLY",
        "INTERVAL=2",
        "FREQ=DAILY;FREQ=DAILY",
        "FREQ=DAILY;INTERVAL=0",
        "FREQ=DAILY;INTERVAL=1000001",
        "FREQ=DAILY;INTERVAL=99999999999999999999",
        "FREQ=DAILY;COUNT=0",
        "FREQ=DAILY;COUNT=ten",
        "FREQ=DAILY;COUNT=١",
        "FREQ=DAILY;UNTIL=soon",
        "FREQ=DAILY;UNTIL=20261341",
        "FREQ=DAILY;UNTIL=99991231",
        "FREQ=MONTHLY;BYMONTHDAY=32",
        "FREQ=MONTHLY;BYMONTHDAY=0",
        "FREQ=MONTHLY;BYDAY=XX",
        "FREQ=MONTHLY;BYDAY=",
        "FREQ=WEEKLY;WKST=5",
        "FREQ=DAILY;BYHOUR=24",
        "FREQ=YEARLY;UNTL=20261231",
        "FREQ=YEARLY;RSCALE=CHINESE",
    ],
)
def test_a_rule_that_cannot_be_read_is_refused_with_its_text(text: str) -> None:
    with pytest.raises(RuleFault) as caught:
        read_rule(text, UTC)
    assert caught.value.rule == text


@given(st.text() | st.lists(st.sampled_from("FREQ=DAILY ;INTERVAL= 5 ;BYDAY= ,MO -1FR ;UNTIL= 2026 0303 T Z COUNT".split())).map("".join))
def test_any_text_is_a_rule_or_refused(text: str) -> None:
    try:
        rule = read_rule(text, UTC)
    except RuleFault:
        return
    assert rule.frequency in Frequency
