"""A week to come, by its days."""

from __future__ import annotations

from collections import Counter
from datetime import date

from bot.actions.agenda import agenda, busy_on
from bot.actions.public_holidays import holidays_of
from bot.rules.load import load_of
from bot.rules.weeks import week_days
from bot.voice.replies import WeekDay, WeekView
from storage.desk import Desk
from storage.records import Horizon


def week_ahead(desk: Desk, first: date) -> WeekView:
    """The week that starts with ``first``."""
    days = week_days(first, desk.person.week_starts)
    found = agenda(desk, days[0], days[-1])
    tasks = Counter(task.day for task in desk.tasks.open_between(days[0], days[-1]))
    holidays = holidays_of(desk, days[0], days[-1])
    listed = tuple(
        WeekDay(
            day,
            tuple(o for o in found if o.day == day),
            load_of(day, found).too_much,
            tasks[day],
            holidays.get(day),
            tuple(o for o in busy_on(desk, day) if o.day < day),
        )
        for day in days
    )
    return WeekView(listed, desk.goals.open_for(Horizon.WEEK, days[0]))
