"""The room of a week's days, found at once, is what the planner finds day by day."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from bot.actions.agenda import agenda, busy_on, commitments_between
from bot.actions.rooms import rooms_on
from bot.actions.wanted import candidates_for, open_day
from bot.rules.occurrences import touching
from bot.rules.planning.asked import STEP_MINUTES
from bot.rules.planning.laying_out import grid_of, laid_out, slots_for
from storage.desk import Desk
from storage.records import Occurrence
from tests.stage import Stage

SAID = (
    "workshop shift every mon, wed and fri 9-17 workshop",
    "night watch every fri 22-06 museum",
    "choir every thursday 19:30-21:00 minor",
    "fair from thu 10:00 to sun 16:00",
    "dentist tue 15:00-16:00, 20 min each way",
    "routine exercise 30m every day 7-8",
    "routine read 50m every tue and sat",
    "task order spokes 35m workshop",
    "task call the glazier for wednesday",
    "task oil the chains 3h for saturday",
)
MOMENTS = ("2026-03-02 06:00", "2026-03-04 07:40", "2026-03-06 23:30", "2026-03-27 12:00")
"""The last is the week in which Europe's clocks go forward."""


def planners_room(desk: Desk, day: date) -> int:
    """The minutes that the planner may fill on one day, less what stands in it by itself."""
    asked = open_day(desk, day, (), ())
    standing = [each.wanted for each in candidates_for(desk, day, ()) if each.block.goal_id is None]
    needed = sum(slots_for(each.minutes) for each in standing if each.window is None or each.window.ends > desk.now)
    return max(0, laid_out(asked, grid_of(asked.window)).capacity - needed) * STEP_MINUTES


def by_itself(desk: Desk, day: date) -> tuple[Occurrence, ...]:
    """What takes hours of the day, read and expanded for this day alone."""
    found = touching(commitments_between(desk, day, day), day, day, desk.person.zone)
    return tuple(each for each in found if each.commitment.blocks_hours)


@pytest.mark.parametrize("moment", MOMENTS)
def test_all_days_at_once_are_as_each_by_itself(stage: Stage, moment: str) -> None:
    for text in SAID:
        stage.say(text)
    stage.jump(moment)
    first = date.fromisoformat(moment[:10])
    days = [first + timedelta(days=ahead) for ahead in range(9)]
    with stage.house.database.desk(stage.person_id, stage.now) as desk:
        busy = {day: busy_on(desk, day) for day in days}
        assert [busy[day] for day in days] == [by_itself(desk, day) for day in days]
        assert [each for each in agenda(desk, days[0], days[-1]) if each.commitment.blocks_hours] == [
            each for day in days for each in by_itself(desk, day) if each.day == day
        ]
        assert any(each.day < day for day in days for each in busy[day])
        assert any(not each for each in busy.values())
        rooms = rooms_on(desk, days)
        assert [room.minutes for room in rooms] == [planners_room(desk, day) for day in days]
        assert len({room.minutes for room in rooms}) > 3
        assert all(more.minutes >= room.minutes for more, room in zip(rooms_on(desk, days, filled=True), rooms, strict=True))


def test_no_days_have_no_room(stage: Stage) -> None:
    with stage.house.database.desk(stage.person_id, stage.now) as desk:
        assert rooms_on(desk, ()) == ()
