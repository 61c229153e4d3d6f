"""Amounts of time. No source: common practice; other packages' phrases are in tests/outside_checks."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.amounts import read_amount
from bot.language.tokens import tokenize
from tests.language.phrases import rows

HOURS_IN_FIGURES = """
2h => 120
2 h => 120
2hrs => 120
2 hr. => 120
2 hours => 120
2-hour => 120
2.5h => 150
2,5h => 150
.5h => 30
0.25h => 15
2h30 => 150
2h30m => 150
2h 30m => 150
2 h 30 min => 150
2h5 => 125
1h05 => 65
1 h 05 => 65
2:30 => 150
2:30h => 150
1:30 hours => 90
0:45 => 45
2:30:20 => 150
1 1/2 h => 90
1½h => 90
1h½ => 90
¾h => 45
½ hour => 30
1/2h => 30
3/4 hour => 45
"""
MINUTES = """
150m => 150
150 min => 150
90 minutes => 90
30-minutes => 30
45min. => 45
90' => 90
1h15' => 75
2.5 min => 2
3.5 min => 4
90 seconds => 2
30 s => 0
one sec => 0
2m30s => 2
1" => 0
"""
IN_WORDS = """
an hour => 60
one hour => 60
hour => 60
the hour => 60
half an hour => 30
half hour => 30
a half hour => 30
half-hour => 30
one half hour => 30
half of an hour => 30
a quarter of an hour => 15
quarter of an hour => 15
quarter hour => 15
three quarters of an hour => 45
three-quarters of an hour => 45
3/4 of an hour => 45
an hour and a half => 90
hour and a half => 90
one hour and half => 90
two and a half hours => 150
two and half hours => 150
2 and a half hours => 150
2 and 1/2 hours => 150
an hour and a quarter => 75
one and a quarter hours => 75
one and three quarter hour => 105
two hours and three quarters => 165
two point five hours => 150
20 odd minutes => 20
10ish minutes => 10
2 hours in total => 120
fifteen minutes => 15
twenty-five minutes => 25
twenty five min => 25
a hundred minutes => 100
one hundred and twenty minutes => 120
a couple of hours => 120
a few minutes => 3
a minute => 1
"""
SEVERAL_UNITS = """
2 hours ten => 130
1 hour thirty => 90
an hour twenty => 80
2 hours and 10 => 130
2 hours plus 30 minutes => 150
2 hours 15 => 135
an hour and 45 minutes => 105
1 hour, 30 min => 90
1h and 30m => 90
1hr & 15 min => 75
1 hour, 5 minutes, and 30 seconds => 66
1 day 2 hours => 1560
2 days, 1:30:00 => 2970
1w 1d => 11520
"""
DAYS = """
1 day => 1440
half a day => 720
a day and a half => 2160
24 hours => 1440
whole day => 1440
all day => 1440
an entire day => 1440
for the day => 1440
a week => 10080
a fortnight => 20160
one night => 1440
"""
WITH_SMALL_WORDS = """
for 2h => 120
about 2h => 120
for about 2 hours => 120
~2h => 120
roughly an hour => 60
almost 3 hours => 180
another 30m => 30
2 more hours => 120
2 extra minutes => 2
an additional 20 min => 20
two full hours => 120
+30m => 30
an hour or so => 60
just under 2 hours => 120
"""
FAMILIES = HOURS_IN_FIGURES + MINUTES + IN_WORDS + SEVERAL_UNITS + DAYS + WITH_SMALL_WORDS

NO_AMOUNT = [
    "",
    "2",
    "2.5",
    "half",
    "minutes",
    "hours",
    "for months",
    "2 months",
    "a year",
    "the day",
    "day",
    "at a few",
    "2:75",
    "2:30pm",
    "2:30 a.m.",
    "1 adult",
    "h",
    "m",
    "a m",
    "an",
    "few",
    "2 and 3",
    "$2",
]
READ_IN_PART = """
1h 2, 3 workshop => 1h
2h 30 march => 2h
2h 30th => 2h
1h 9-12 => 1h
1h 10-12 => 1h
1h 10:30 => 1h
1h 10am => 1h
1h 30m 1h => 1h 30m
1h, 2h => 1h
30 min 2h => 30 min
1h 10% => 1h
"""


@pytest.mark.parametrize(("text", "wanted"), rows(FAMILIES))
def test_amounts(text: str, wanted: str) -> None:
    tokens = tokenize(f"{text} workshop")
    found = read_amount(tokens, 0)
    assert found is not None
    assert (found.value, found.end) == (int(wanted), len(tokens) - 1)


@pytest.mark.parametrize("text", NO_AMOUNT)
def test_what_is_no_amount(text: str) -> None:
    assert read_amount(tokenize(text), 0) is None


@pytest.mark.parametrize(("text", "part"), rows(READ_IN_PART))
def test_an_amount_ends_where_something_else_begins(text: str, part: str) -> None:
    found = read_amount(tokenize(text), 0)
    assert found is not None
    assert found.end == len(tokenize(part))


def test_an_amount_is_read_from_where_it_stands() -> None:
    found = read_amount(tokenize("workshop 2h"), 1)
    assert found is not None
    assert (found.value, found.end) == (120, 3)


FORMS = (
    lambda h, m: f"{h}h{m:02}",
    lambda h, m: f"{h}h {m}m",
    lambda h, m: f"{h} hours {m} minutes",
    lambda h, m: f"{h} hrs, {m} min",
    lambda h, m: f"{h} hour and {m} minutes",
    lambda h, m: f"{h}:{m:02}",
    lambda h, m: f"{h * 60 + m}m",
    lambda h, m: f"{h * 60 + m} minutes",
    lambda h, m: f"about {h}h{m:02}m",
    lambda h, m: f"{m} min" if h == 0 else f"{h} h {m} min",
)


@given(st.integers(0, 99), st.integers(0, 59), st.sampled_from(FORMS))
def test_an_amount_written_in_another_form_has_the_same_minutes(hours: int, minutes: int, form: object) -> None:
    assert callable(form)
    tokens = tokenize(form(hours, minutes))
    found = read_amount(tokens, 0)
    assert found is not None
    assert (found.value, found.end) == (hours * 60 + minutes, len(tokens))


@given(st.integers(0, 9999))
def test_hundredths_of_an_hour_are_exact(hundredths: int) -> None:
    found = read_amount(tokenize(f"{hundredths // 100}.{hundredths % 100:02}h"), 0)
    assert found is not None
    assert abs(found.value * 100 - hundredths * 60) <= 50


@given(st.text())
def test_no_text_raises(text: str) -> None:
    tokens = tokenize(text)
    for at in range(len(tokens)):
        found = read_amount(tokens, at)
        assert found is None or (at < found.end <= len(tokens) and found.value >= 0)
