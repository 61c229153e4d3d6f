"""The hours of targets, spread over a week."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.planning.spreading import spread
from bot.rules.planning.week import plan_week
from bot.rules.planning.week_asked import DayRoom, OpenWeek, Share, WeekGoal, WeekTarget

MONDAY = date(2026, 3, 2)
FAMILY, COURSE = 1, 2


def week(rooms: list[int], *goals: WeekGoal, targets: tuple[WeekTarget, ...] = ()) -> OpenWeek:
    return OpenWeek(tuple(DayRoom(MONDAY + timedelta(days=number), room) for number, room in enumerate(rooms)), goals, targets)


def spread_of(asked: OpenWeek) -> list[tuple[str, int, int]]:
    """Key, number of the day, minutes."""
    return [(share.key, (share.day - MONDAY).days, share.minutes) for share in spread(asked, plan_week(asked).shares)]


def family(hours: int) -> tuple[WeekTarget, ...]:
    return (WeekTarget("family", FAMILY, at_least_minutes=hours * 60),)


def test_a_target_has_as_much_of_every_day_that_has_room() -> None:
    assert spread_of(week([600] * 5, targets=family(10))) == [("family", day, 120) for day in range(5)]


def test_a_day_has_no_more_than_its_room_and_the_others_make_up_for_it() -> None:
    assert spread_of(week([600, 60, 600], targets=family(5))) == [("family", 0, 120), ("family", 1, 60), ("family", 2, 120)]


def test_a_day_has_an_hour_rather_than_a_quarter_and_the_days_with_most_room_come_first() -> None:
    assert spread_of(week([120, 600, 120, 480], targets=family(2))) == [("family", 1, 60), ("family", 3, 60)]


def test_goals_stay_where_they_are() -> None:
    asked = week([180, 180], WeekGoal("report", 120), targets=family(2))
    assert spread_of(asked) == [("report", 0, 120), ("family", 0, 60), ("family", 1, 60)]


rooms = st.lists(st.integers(0, 300), min_size=1, max_size=7)
wanted = st.integers(1, 600)


@given(rooms, wanted, wanted, wanted)
def test_nothing_is_lost_goals_stay_and_no_day_overflows(room: list[int], goal: int, one: int, other: int) -> None:
    targets = (WeekTarget("family", FAMILY, at_least_minutes=one), WeekTarget("course", COURSE, at_least_minutes=other))
    asked = week(room, WeekGoal("report", goal, category_id=COURSE), targets=targets)
    planned = plan_week(asked).shares
    found = spread(asked, planned)

    assert sums(found) == sums(planned)
    assert [share for share in found if share.key == "report"] == [share for share in planned if share.key == "report"]
    for day in asked.days:
        assert sum(share.minutes for share in found if share.day == day.day) <= day.minutes
    assert [share.day for share in found] == sorted(share.day for share in found)


def sums(shares: tuple[Share, ...]) -> Counter[str]:
    counted: Counter[str] = Counter()
    for share in shares:
        counted[share.key] += share.minutes
    return counted
