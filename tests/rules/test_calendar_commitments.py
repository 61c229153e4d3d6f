"""Events of calendars as commitments. No source: these are our own promises."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.calendar_commitments import calendar_commitments
from bot.rules.marks import Mark, MarkRule
from storage.records import KeptEvent

ZONE = "Europe/Brussels"
MONDAY = date(2026, 3, 2)
SUNDAY = date(2026, 3, 8)
NINE = datetime(2026, 3, 2, 8, tzinfo=UTC)
HOUR = timedelta(hours=1)


def event(uid: str = "a", title: str = "Shift", *, cancelled: bool = False, busy: bool = True) -> KeptEvent:
    return KeptEvent(1, 1, uid, "", title, NINE, NINE + HOUR, busy=busy, cancelled=cancelled)


def midnight(day: int) -> datetime:
    return datetime(2026, 3, 1, tzinfo=ZoneInfo(ZONE)).astimezone(UTC) + timedelta(days=day - 1)


def test_an_event_never_has_the_id_of_one_of_the_persons_own() -> None:
    (found,) = calendar_commitments([("Museum", event())], (), MONDAY, SUNDAY, ZONE)
    assert (found.id, found.calendar, found.title) == (-1, "Museum", "Shift")


def test_of_the_same_event_in_two_calendars_the_first_decides() -> None:
    both = [("One", event(cancelled=True)), ("Other", event())]
    assert calendar_commitments(both, (), MONDAY, SUNDAY, ZONE) == ()
    assert [each.calendar for each in calendar_commitments(both[::-1], (), MONDAY, SUNDAY, ZONE)] == ["Other"]


def test_what_blocks_no_time_is_minor_unless_a_rule_says_otherwise() -> None:
    free = [("Museum", event(busy=False))]
    (plain,) = calendar_commitments(free, (), MONDAY, SUNDAY, ZONE)
    (marked,) = calendar_commitments(free, (MarkRule("shift", Mark(7, False, True)),), MONDAY, SUNDAY, ZONE)
    assert (plain.major, plain.blocks_hours, plain.category_id) == (False, False, None)
    assert (marked.major, marked.blocks_hours, marked.category_id, marked.outdoors) == (True, False, 7, True)


def test_an_event_without_a_title_is_called_so() -> None:
    assert calendar_commitments([("Museum", event(title=""))], (), MONDAY, SUNDAY, ZONE)[0].title == "Untitled"


@given(st.integers(1, 28), st.integers(1, 20))
def test_whole_days_are_there_once_on_each_day_that_is_wanted(first: int, days: int) -> None:
    fair = KeptEvent(1, 1, "fair", "", "Fair", midnight(first), midnight(first + days), all_day=True)
    found = calendar_commitments([("Town", fair)], (), MONDAY, SUNDAY, ZONE)
    wanted = [day for day in range(2, 9) if first <= day < first + days]
    assert [each.starts.astimezone(ZoneInfo(ZONE)).day for each in found] == wanted
    assert not any(each.blocks_hours for each in found)
