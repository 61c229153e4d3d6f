"""What is next, and whether a day is full."""

from __future__ import annotations

from datetime import date

from bot.actions.agenda import busy_on
from bot.actions.day_plan import lines_of
from bot.actions.today import today
from bot.rules.local_time import elapsed_minutes
from bot.voice.replies import DayView, HowFull, PlanLine, WhatsNext
from storage.desk import Desk


def lines_to_come(desk: Desk, day: date) -> tuple[PlanLine, ...]:
    """What was accepted of the day's plan and is not over."""
    return tuple(line for line in lines_of(desk, day, accepted=True) if line.ends > desk.now)


def whats_next(desk: Desk, view: DayView) -> WhatsNext:
    """What is fixed or planned today and not over, the earliest first; what is under way apart from what is to come."""
    fixed = (PlanLine(each.starts, each.ends, each.title) for each in busy_on(desk, today(desk)) if each.ends > desk.now)
    ahead = sorted((*fixed, *view.planned), key=lambda line: (line.starts, line.ends))
    under_way = tuple(line for line in ahead if line.starts <= desk.now)
    return WhatsNext(view, under_way, tuple(line for line in ahead if line.starts > desk.now))


def how_full(view: DayView, asked: str) -> HowFull:
    """The minutes that tasks and the accepted plan leave of those that may be filled."""
    besides = sum(elapsed_minutes(line.starts, line.ends) for line in view.planned if line.number is None)
    return HowFull(view, view.free.to_fill - view.needed_minutes - besides, is_free=asked == "free")
