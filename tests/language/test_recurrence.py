"""What comes again, said on Tuesday 3 March 2026 at noon. The rule's form: RFC 5545, section 3.3.10.

Each row is a phrase, its rule, the first day, and its start and end where they were said.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest
from dateutil.rrule import rrulestr
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.language.recurrence import Rule, read_rule
from bot.language.tokens import tokenize
from storage.records import Weekday
from tests.language.person import at
from tests.language.phrases import rows

DAYS_OF_THE_WEEK = """
every tuesday => FREQ=WEEKLY;BYDAY=TU 2026-03-03
each tuesday => FREQ=WEEKLY;BYDAY=TU 2026-03-03
tuesdays => FREQ=WEEKLY;BYDAY=TU 2026-03-03
on tuesdays => FREQ=WEEKLY;BYDAY=TU 2026-03-03
tue and thu => FREQ=WEEKLY;BYDAY=TU,TH 2026-03-03
tuesdays and thursdays => FREQ=WEEKLY;BYDAY=TU,TH 2026-03-03
every thu and mon => FREQ=WEEKLY;BYDAY=MO,TH 2026-03-05
mon, wed and fri => FREQ=WEEKLY;BYDAY=MO,WE,FR 2026-03-04
sat or sun => FREQ=WEEKLY;BYDAY=SA,SU 2026-03-07
mon-fri => FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR 2026-03-03
every saturday through tuesday => FREQ=WEEKLY;BYDAY=MO,TU,SA,SU 2026-03-03
weekdays => FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR 2026-03-03
every weekday => FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR 2026-03-03
weekends => FREQ=WEEKLY;BYDAY=SA,SU 2026-03-07
every day except sunday => FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR,SA 2026-03-03
monday mornings => FREQ=WEEKLY;BYDAY=MO 2026-03-09
"""
INTERVALS = """
every day => FREQ=DAILY 2026-03-03
everyday => FREQ=DAILY 2026-03-03
daily => FREQ=DAILY 2026-03-03
every morning => FREQ=DAILY 2026-03-03
every other day => FREQ=DAILY;INTERVAL=2 2026-03-03
every 10 days => FREQ=DAILY;INTERVAL=10 2026-03-03
every 3rd day => FREQ=DAILY;INTERVAL=3 2026-03-03
weekly => FREQ=WEEKLY 2026-03-03
once a week => FREQ=WEEKLY 2026-03-03
weekly on mondays => FREQ=WEEKLY;BYDAY=MO 2026-03-09
once a week on sunday => FREQ=WEEKLY;BYDAY=SU 2026-03-08
every other monday => FREQ=WEEKLY;INTERVAL=2;BYDAY=MO 2026-03-09
every second tuesday => FREQ=WEEKLY;INTERVAL=2;BYDAY=TU 2026-03-03
every other week on mon => FREQ=WEEKLY;INTERVAL=2;BYDAY=MO 2026-03-09
every 3 weeks on mon and fri => FREQ=WEEKLY;INTERVAL=3;BYDAY=MO,FR 2026-03-06
every fortnight => FREQ=WEEKLY;INTERVAL=2 2026-03-03
bi-weekly => FREQ=WEEKLY;INTERVAL=2 2026-03-03
"""
MONTHS_AND_YEARS = """
every month => FREQ=MONTHLY 2026-03-03
quarterly => FREQ=MONTHLY;INTERVAL=3 2026-03-03
first friday of the month => FREQ=MONTHLY;BYDAY=1FR 2026-03-06
every first friday => FREQ=MONTHLY;BYDAY=1FR 2026-03-06
every 2nd tuesday of the month => FREQ=MONTHLY;BYDAY=2TU 2026-03-10
second tuesday of each month => FREQ=MONTHLY;BYDAY=2TU 2026-03-10
every last friday of the month => FREQ=MONTHLY;BYDAY=-1FR 2026-03-27
2nd to the last friday of each month => FREQ=MONTHLY;BYDAY=-2FR 2026-03-20
first and third friday of each month => FREQ=MONTHLY;BYDAY=1FR,3FR 2026-03-06
first friday of every other month => FREQ=MONTHLY;INTERVAL=2;BYDAY=1FR 2026-03-06
every 2 months on the first monday => FREQ=MONTHLY;INTERVAL=2;BYDAY=1MO 2026-04-06
the 15th of every month => FREQ=MONTHLY;BYMONTHDAY=15 2026-03-15
every month on the 15th => FREQ=MONTHLY;BYMONTHDAY=15 2026-03-15
monthly on the 4th and 20th => FREQ=MONTHLY;BYMONTHDAY=4,20 2026-03-04
every 15th => FREQ=MONTHLY;BYMONTHDAY=15 2026-03-15
last day of every month => FREQ=MONTHLY;BYMONTHDAY=-1 2026-03-31
end of each month => FREQ=MONTHLY;BYMONTHDAY=-1 2026-03-31
every april 2nd => FREQ=YEARLY;BYMONTH=4;BYMONTHDAY=2 2026-04-02
every 2nd of april => FREQ=YEARLY;BYMONTH=4;BYMONTHDAY=2 2026-04-02
every year on april 2 => FREQ=YEARLY;BYMONTH=4;BYMONTHDAY=2 2026-04-02
every fourth thursday in november => FREQ=YEARLY;BYMONTH=11;BYDAY=4TH 2026-11-26
yearly => FREQ=YEARLY 2026-03-03
"""
ENDS = """
every day 10 times => FREQ=DAILY;COUNT=10 2026-03-03
every day for 10 times => FREQ=DAILY;COUNT=10 2026-03-03
fridays 3x => FREQ=WEEKLY;BYDAY=FR;COUNT=3 2026-03-06
fridays twice => FREQ=WEEKLY;BYDAY=FR;COUNT=2 2026-03-06
every day until june => FREQ=DAILY;UNTIL=20260531 2026-03-03
every day until 3 june => FREQ=DAILY;UNTIL=20260603 2026-03-03
every week for 6 weeks => FREQ=WEEKLY;UNTIL=20260413 2026-03-03
tuesdays for the next month => FREQ=WEEKLY;BYDAY=TU;UNTIL=20260402 2026-03-03
every monday starting 1 april => FREQ=WEEKLY;BYDAY=MO 2026-04-06
every monday from 1 april until 1 june => FREQ=WEEKLY;BYDAY=MO;UNTIL=20260601 2026-04-06
"""
TIMES = """
tuesdays at 3 => FREQ=WEEKLY;BYDAY=TU 2026-03-03 15:00
tuesdays at 9 => FREQ=WEEKLY;BYDAY=TU 2026-03-10 09:00
every tue and thu 9-11 => FREQ=WEEKLY;BYDAY=TU,TH 2026-03-05 09:00 11:00
every weekday from 1 to 5 => FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR 2026-03-03 13:00 17:00
every evening at 8 => FREQ=DAILY 2026-03-03 20:00
monday mornings at 9 => FREQ=WEEKLY;BYDAY=MO 2026-03-09 09:00
every friday evening at 7 => FREQ=WEEKLY;BYDAY=FR 2026-03-06 19:00
daily at noon => FREQ=DAILY 2026-03-03 12:00
mon-fri 9-17 until 1 june => FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR;UNTIL=20260601 2026-03-04 09:00 17:00
"""
FAMILIES = DAYS_OF_THE_WEEK + INTERVALS + MONTHS_AND_YEARS + ENDS + TIMES
NO_RULE = [
    "",
    "tuesday",
    "every",
    "each",
    "every dentist",
    "every 5 minutes",
    "every hour",
    "first",
    "the 15th",
    "first friday",
    "last friday",
    "10 times",
    "once",
    "weekday",
    "weekend",
    "on tuesday",
    "monday morning",
    "the first of may",
    "all day",
    "every 200 days",
]


def told(rule: Rule) -> str:
    return " ".join([rule.text, str(rule.first), *(each.isoformat("minutes") for each in (rule.start, rule.end) if each)])


@pytest.mark.parametrize(("phrase", "wanted"), rows(FAMILIES))
def test_recurrences(phrase: str, wanted: str) -> None:
    tokens = tokenize(f"{phrase} yoga")
    found = read_rule(tokens, 0, at())
    assert found is not None
    assert (told(found.value), found.end) == (wanted, len(tokens) - 1)


@pytest.mark.parametrize("phrase", NO_RULE)
def test_what_does_not_come_again(phrase: str) -> None:
    assert read_rule(tokenize(phrase), 0, at()) is None


def test_every_other_week_counts_from_the_persons_first_day() -> None:
    found = read_rule(tokenize("every other sunday"), 0, replace(at(), week_starts=Weekday.SUNDAY))
    assert found is not None
    assert found.value.text == "FREQ=WEEKLY;INTERVAL=2;BYDAY=SU;WKST=SU"


def test_a_last_day_before_the_first_is_the_next_years() -> None:
    found = read_rule(tokenize("mon-fri 9-17 until 1 june"), 0, at("2052-06-01T00:00"))
    assert found is not None
    assert (found.value.text, found.value.first) == ("FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR;UNTIL=20530601", date(2052, 6, 3))


@settings(max_examples=400)
@given(st.sampled_from([phrase for phrase, _ in rows(FAMILIES)]), st.dates(date(2020, 1, 1), date(2060, 1, 1)))
def test_the_first_day_is_the_rules_own_first_day(phrase: str, today: date) -> None:
    """Checked against the recurrence rules of python-dateutil 2.9."""
    found = read_rule(tokenize(phrase), 0, at(f"{today}T00:00"))
    assert found is not None
    rule = found.value
    assert rule.first is not None
    assert rule.first >= today
    assert next(iter(rrulestr(rule.text, dtstart=datetime.combine(rule.first, datetime.min.time())))).date() == rule.first


words = st.sampled_from([*FAMILIES.replace("=>", " ").split(), "the", "and", ","])


@given(st.text() | st.lists(words).map(" ".join))
def test_no_text_raises_and_every_rule_is_a_rule(text: str) -> None:
    tokens = tokenize(text)
    for place in range(len(tokens)):
        found = read_rule(tokens, place, at())
        assert found == read_rule(tokens, place, at())
        if found is not None:
            assert place < found.end <= len(tokens)
            rrulestr(found.value.text, dtstart=datetime(2026, 3, 3))
