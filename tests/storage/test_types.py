"""Values come back as they were kept, and what could not is refused."""

from __future__ import annotations

import sqlite3
import zoneinfo
from contextlib import closing
from datetime import UTC, date, datetime, time, timedelta, timezone
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from storage.database import Database
from storage.errors import Unkeepable
from storage.pay_types import BREAKS, DAYS_HANDED_IN, MONEY, OVERTIME, ROUNDING
from storage.records import (
    BreakRule,
    Button,
    DayHandedIn,
    Limit,
    OvertimeRules,
    Person,
    Rounded,
    Rounding,
    RoundingStep,
    RoundKind,
    Step,
    Weekday,
)
from storage.types import (
    BUTTON_ROWS,
    DAYS,
    IDS,
    MALFORMED,
    NAMES,
    SPANS,
    Choice,
    Flag,
    Kept,
    LocalDay,
    TimeOfDay,
    UtcInstant,
    in_utc,
    json_text,
)
from tests.databases import IN_A_FILE

INSTANTS = st.datetimes(
    min_value=datetime(2, 1, 1), max_value=datetime(9998, 1, 1), timezones=st.sampled_from([UTC, timezone(timedelta(hours=-9.5))])
)
MINUTES = st.times().map(lambda moment: moment.replace(second=0, microsecond=0))
BUTTONS = st.builds(Button, st.text(), st.text(), st.booleans())


def tuples_of(items: st.SearchStrategy[Any]) -> st.SearchStrategy[tuple[Any, ...]]:
    return st.lists(items, max_size=4).map(tuple)


DECIMALS = st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**9), max_value=10**9, places=4)
LIMITS = tuples_of(st.builds(Limit, st.integers(0), DECIMALS))


KEPT: list[tuple[Kept[Any], st.SearchStrategy[Any]]] = [
    (UtcInstant(), INSTANTS),
    (LocalDay(), st.dates()),
    (TimeOfDay(), MINUTES),
    (Flag(), st.booleans()),
    (Choice(Weekday), st.sampled_from(Weekday)),
    (Choice(RoundKind), st.sampled_from(RoundKind)),
    (NAMES, tuples_of(st.text())),
    (DAYS, tuples_of(st.dates())),
    (IDS, tuples_of(st.integers())),
    (SPANS, tuples_of(st.tuples(st.integers(0), st.integers(0)))),
    (BUTTON_ROWS, tuples_of(tuples_of(BUTTONS))),
    (MONEY, DECIMALS),
    (ROUNDING, st.builds(Rounding, st.sampled_from(RoundingStep), st.sampled_from(Rounded))),
    (BREAKS, tuples_of(st.builds(BreakRule, st.integers(0), st.integers(0)))),
    (OVERTIME, st.builds(OvertimeRules, LIMITS, LIMITS, LIMITS)),
    (DAYS_HANDED_IN, tuples_of(st.builds(DayHandedIn, st.dates(), st.integers(0), st.integers(0)))),
]


@given(st.data())
@pytest.mark.parametrize(("kept", "values"), KEPT, ids=lambda each: type(each).__name__)
def test_a_value_comes_back_equal_and_keeps_to_the_same_text(kept: Kept[Any], values: st.SearchStrategy[Any], data: st.DataObject) -> None:
    value = data.draw(values)
    raw = kept.process_bind_param(value, None)
    assert isinstance(raw, str | int)
    back = kept.process_result_value(raw, None)
    assert back == value
    assert kept.process_bind_param(back, None) == raw


@pytest.mark.parametrize("kept", [kept for kept, _ in KEPT], ids=lambda each: type(each).__name__)
def test_nothing_stays_nothing(kept: Kept[Any]) -> None:
    assert kept.process_bind_param(None, None) is None
    assert kept.process_result_value(None, None) is None


@given(INSTANTS, INSTANTS)
def test_instants_sort_as_their_texts_do(one: datetime, other: datetime) -> None:
    kept = UtcInstant()
    assert (one < other) == (kept.keep(one) < kept.keep(other))


def test_an_instant_is_kept_in_utc_whatever_zone_it_came_in() -> None:
    # Chatham is 13 h 45 ahead in its summer (tzdata, Pacific/Chatham).
    chatham = datetime(2026, 3, 2, 18, 45, tzinfo=zoneinfo.ZoneInfo("Pacific/Chatham"))
    assert UtcInstant().keep(chatham) == "2026-03-02T05:00:00.000000Z"
    assert in_utc(chatham).utcoffset() == timedelta(0)


def test_a_weekday_is_kept_by_its_name_and_a_choice_by_its_value() -> None:
    assert Choice(Weekday).keep(Weekday.SUNDAY) == "sunday"
    assert Choice(Step).keep(Step.DONE) == "done"


@pytest.mark.parametrize(
    ("kept", "value"),
    [
        (UtcInstant(), datetime(2026, 3, 2, 5)),
        (LocalDay(), datetime(2026, 3, 2, 5, tzinfo=UTC)),
        (TimeOfDay(), time(6, 0, 30)),
        (TimeOfDay(), time(6, 0, 0, 1)),
        (TimeOfDay(), time(6, tzinfo=UTC)),
        (Choice(Step), RoundKind.MORNING),
        (MONEY, 14.5),
        (MONEY, Decimal("NaN")),
    ],
)
def test_a_value_that_would_lose_something_is_refused(kept: Kept[Any], value: object) -> None:
    with pytest.raises(Unkeepable) as refused:
        kept.process_bind_param(value, None)
    assert refused.value.value is value


@pytest.mark.parametrize(
    ("kept", "raw"),
    [
        (UtcInstant(), "soon"),
        (LocalDay(), "2026-02-30"),
        (TimeOfDay(), 6),
        (Choice(Step), "waiting"),
        (NAMES, "[1"),
        (SPANS, "[[1]]"),
        (MONEY, "14,50"),
        (ROUNDING, "7 each day"),
        (ROUNDING, "15"),
        (OVERTIME, '{"weekly":[[2400]]}'),
        (BREAKS, "[[360]]"),
        (DAYS_HANDED_IN, '[["2026-02-30",1,1]]'),
    ],
)
def test_text_that_is_not_of_our_making_is_told_apart(kept: Kept[Any], raw: object) -> None:
    with pytest.raises((*MALFORMED, Unkeepable)):
        kept.recall(raw)


@IN_A_FILE
def test_a_row_that_is_not_of_our_making_says_which_value_it_is(database: Database, person: Person) -> None:
    with closing(sqlite3.connect(database.path)) as connection, connection:
        connection.execute("UPDATE people SET joined = 'soon' WHERE id = ?", (person.id,))
    with pytest.raises(Unkeepable) as malformed:
        database.people.get(person.id)
    assert (malformed.value.value, malformed.value.wanted) == ("soon", "UtcInstant")


def test_numbers_that_json_lacks_are_refused() -> None:
    with pytest.raises(ValueError, match="JSON"):
        json_text(float("nan"))


def test_money_keeps_the_digits_it_was_written_with() -> None:
    assert [MONEY.keep(Decimal(text)) for text in ("14.50", "1E+2", "0.125")] == ["14.50", "100", "0.125"]


def test_rounding_is_kept_in_words_and_overtime_with_its_multiples_as_text() -> None:
    assert ROUNDING.keep(Rounding(RoundingStep.QUARTER_HOUR, Rounded.DAYS)) == "15 each day"
    assert OVERTIME.keep(OvertimeRules(weekly=(Limit(2400, Decimal("1.5")),))) == '{"weekly":[[2400,"1.5"]],"daily":[],"seventh_day":[]}'


def test_days_are_kept_in_the_order_they_were_given() -> None:
    assert DAYS.keep((date(2026, 3, 3), date(2026, 3, 1))) == '["2026-03-03","2026-03-01"]'
