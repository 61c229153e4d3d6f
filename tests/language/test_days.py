"""Days. The phrases and the day they are said on are in ``day_phrases``. No source: common practice, and our own conventions."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.days import read_day
from bot.language.times_of_day import Look
from bot.language.tokens import tokenize
from storage.records import DateOrder, Weekday
from tests.language.day_phrases import FAMILIES, WHERE_ONLY_A_DAY_STANDS
from tests.language.person import at
from tests.language.phrases import rows

NO_DAY = [
    "",
    "25",
    "2.4",
    "2-4",
    "7.6",
    "2h",
    "in 2h",
    "half an hour",
    "2 weeks",
    "the one",
    "this is the one",
    "this one",
    "this past one",
    "this may take long",
    "I second that",
    "secretary",
    "in days",
    "for months",
    "1 adult",
    "a dentist",
    "the dentist",
    "next",
    "last",
    "this",
    "in",
    "of march",
    "30 february",
    "nov 31",
    "the 32nd",
    "Martin Luther King' day",
    "palm",
    "20261301",
    "99999999999 days ago",
    "9999 years from now",
    "1/2 h",
    "3/4 of an hour",
    "3/15/2",
]


def both_ways(*tables: str) -> list[tuple[str, Look, str]]:
    """Each phrase with the day it means looking forward, and looking back."""
    found: list[tuple[str, Look, str]] = []
    for phrase, days in rows(*tables):
        found += [(phrase, "forward", days.split()[0]), (phrase, "back", days.split()[-1])]
    return found


def ahead(*tables: str) -> list[tuple[str, str]]:
    """Each phrase with the day it means looking forward."""
    return [(phrase, days.split()[0]) for phrase, days in rows(*tables)]


@pytest.mark.parametrize(("phrase", "look", "wanted"), both_ways(FAMILIES))
def test_days(phrase: str, look: Look, wanted: str) -> None:
    tokens = tokenize(f"{phrase} workshop 2h")
    found = read_day(tokens, 0, at(), look)
    assert found is not None
    assert (found.value.isoformat(), found.end) == (wanted, len(tokens) - 3)


@pytest.mark.parametrize(("phrase", "wanted"), ahead(FAMILIES, WHERE_ONLY_A_DAY_STANDS))
def test_days_where_only_a_day_can_stand(phrase: str, wanted: str) -> None:
    tokens = tokenize(f"push 1 to {phrase}")
    found = read_day(tokens, 3, at(), "forward", alone=True)
    assert found is not None
    assert (found.value.isoformat(), found.end) == (wanted, len(tokens))


@pytest.mark.parametrize("phrase", NO_DAY)
def test_what_is_no_day(phrase: str) -> None:
    assert read_day(tokenize(phrase), 0, at(), "forward") is None


def test_the_persons_own_order_decides() -> None:
    american = replace(at(), date_order=DateOrder.MONTH_DAY)
    found = read_day(tokenize("2/4"), 0, american, "forward")
    assert found is not None
    assert found.value == date(2027, 2, 4)


def test_a_name_that_agrees_decides_the_order_too() -> None:
    found = read_day(tokenize("thu 5/3"), 0, at(), "forward")
    turned = read_day(tokenize("sun 5/3"), 0, at(), "forward")
    assert found is not None
    assert turned is not None
    assert (found.value, turned.value) == (date(2026, 3, 5), date(2026, 5, 3))


def test_a_low_number_after_a_name_is_an_hour_unless_it_is_the_near_day() -> None:
    near, hour = read_day(tokenize("friday 6"), 0, at(), "forward"), read_day(tokenize("friday 3"), 0, at(), "forward")
    assert near is not None
    assert hour is not None
    assert (near.end, hour.end) == (2, 1)


def test_the_week_starts_when_the_person_says() -> None:
    from_sunday = replace(at(), week_starts=Weekday.SUNDAY)
    found = read_day(tokenize("next sunday"), 0, from_sunday, "forward")
    assert found is not None
    assert found.value == date(2026, 3, 8)


def test_next_friday_said_on_a_thursday_is_the_friday_of_next_week() -> None:
    found = read_day(tokenize("next friday"), 0, at("2026-03-05T12:00"), "forward")
    assert found is not None
    assert found.value == date(2026, 3, 13)


days = st.dates(date(1950, 1, 1), date(2049, 12, 31))
FORMS = ("{:%Y-%m-%d}", "{:%d/%m/%Y}", "{:%d %B %Y}", "{:%B %d, %Y}", "{:%A %d %B %Y}", "{:%Y%m%d}", "{:%d-%b-%y}", "{:%a, %b %d, %Y}")


@given(days, st.sampled_from(FORMS))
def test_a_whole_date_is_read_as_it_is_written_in_every_form(day: date, form: str) -> None:
    tokens = tokenize(form.format(day))
    found = read_day(tokens, 0, at(), "forward")
    assert found is not None
    assert (found.value, found.end) == (day, len(tokens))


@given(
    st.dates(date(2000, 1, 1), date(2100, 1, 1)),
    st.sampled_from(["forward", "back"]),
    st.integers(1, 31),
    st.sampled_from(["jan", "feb", "mar", "dec"]),
)
def test_a_date_without_a_year_lies_in_the_looking_direction(today: date, look: Look, day: int, month: str) -> None:
    found = read_day(tokenize(f"{day} {month}"), 0, at(f"{today}T12:00"), look)
    if found is not None:
        assert found.value.day == day
        assert found.value >= today if look == "forward" else found.value <= today


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.integers(0, 6))
def test_a_name_alone_is_at_most_a_week_away_and_never_today(today: date, weekday: int) -> None:
    name = (date(2026, 3, 2) + timedelta(days=weekday)).strftime("%A")
    ahead, back = (read_day(tokenize(name), 0, at(f"{today}T12:00"), look) for look in ("forward", "back"))
    assert ahead is not None
    assert back is not None
    assert (ahead.value.weekday(), back.value.weekday()) == (weekday, weekday)
    assert 1 <= (ahead.value - today).days <= 7
    assert 1 <= (today - back.value).days <= 7


@given(st.text() | st.lists(st.sampled_from([*FAMILIES.split(), "9-12", "h"])).map(" ".join), st.booleans())
def test_no_text_raises_and_reading_twice_gives_the_same(text: str, alone: bool) -> None:
    tokens = tokenize(text)
    for place in range(len(tokens)):
        found = read_day(tokens, place, at(), "forward", alone=alone)
        assert found is None or place < found.end <= len(tokens)
        assert found == read_day(tokens, place, at(), "forward", alone=alone)


@pytest.mark.parametrize("edge", ["0002-01-01T12:00", "9997-12-31T12:00"])
@given(st.lists(st.sampled_from(FAMILIES.split())).map(" ".join))
def test_at_the_calendars_ends_nothing_raises(edge: str, text: str) -> None:
    tokens = tokenize(text)
    for place in range(len(tokens)):
        for look in ("forward", "back"):
            read_day(tokens, place, at(edge), look)
