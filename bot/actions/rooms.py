"""How much room the days of a week have: found for all of them at once, as a morning asks for each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, timedelta

from bot.actions.agenda import busy_on
from bot.actions.estimating import ratios
from bot.actions.open_tasks import left_over
from bot.actions.routine_days import done_between
from bot.actions.task_time import minutes_spent
from bot.actions.today import today
from bot.rules.estimates import with_ratio
from bot.rules.local_time import ONE_DAY
from bot.rules.planning import asked as planner
from bot.rules.planning.laying_out import grid_of, room_beside, slots_for
from bot.rules.planning.week_asked import DayRoom
from bot.rules.routines import days_of
from bot.rules.spans import Span, waking_span
from bot.rules.travel import taken, travel_of
from storage.desk import Desk
from storage.records import Occurrence, Routine, Task

NO_ESTIMATE = 30
"""Minutes planned for a task that nobody gave an estimate. Common practice, no source."""


def rooms_on(desk: Desk, days: Sequence[date], *, filled: bool = False) -> tuple[DayRoom, ...]:
    """What routines and tasks leave of the hours that may be filled of each of ``days``, which follow each other.

    Of all their free hours if ``filled``. Counted as the planner counts, in quarters of an hour. Routines
    that are done, and of today those whose time is over, need nothing.
    """
    if not days:
        return ()
    needed = _slots_needed(desk, days)
    free_share = 0 if filled else desk.person.free_share
    return tuple(DayRoom(day, max(0, _capacity(desk, day, free_share) - needed[day]) * planner.STEP_MINUTES) for day in days)


def window_on(desk: Desk, day: date) -> Span:
    """The waking window of ``day``; of today what is left of it, from the next quarter of an hour on."""
    person = desk.person
    window = waking_span(day, person.waking_start, person.waking_end, person.zone)
    if day != today(desk):
        return window
    return Span(min(max(window.starts, _next_quarter(desk.now)), window.ends), window.ends)


def fixed_of(desk: Desk, busy: Iterable[Occurrence]) -> tuple[planner.Fixed, ...]:
    """The occurrences as the planner sees them, with the way there and back."""
    return tuple(planner.Fixed(Span(each.starts, each.ends), *travel_of(each.commitment, desk.person.travel_minutes)) for each in busy)


def window_of(desk: Desk, routine: Routine, day: date) -> Span | None:
    """Where on ``day`` the routine has its place; None for anywhere."""
    if routine.window_start is None or routine.window_end is None:
        return None
    return waking_span(day, routine.window_start, routine.window_end, desk.person.zone)


def planned_minutes(task: Task, ratio: float, spent: int = 0) -> int:
    """How long to plan for the task: its estimate, corrected by what such tasks took before, less what was ``spent`` on it.

    One whose estimate is used up wants nothing, though it stays open: only the person can say what more it takes. Until then it
    wants a quarter of an hour at least.
    """
    if task.estimate_minutes is None:
        return NO_ESTIMATE
    if spent >= task.estimate_minutes:
        return 0
    wanted = with_ratio(task.estimate_minutes, ratio)
    return max(wanted - spent, planner.STEP_MINUTES) if spent else wanted


def _capacity(desk: Desk, day: date, free_share: int) -> int:
    """The slots of the day that may be filled."""
    travel = desk.person.travel_minutes
    return room_beside([taken(each, travel) for each in busy_on(desk, day)], grid_of(window_on(desk, day)), free_share).capacity


def _slots_needed(desk: Desk, days: Sequence[date]) -> Mapping[date, int]:
    """The slots that the routines and open tasks of each day need; what earlier days left open needs them today.

    What today leaves over needs them tomorrow.
    """
    needed = dict.fromkeys(days, 0)
    done = done_between(desk, days[0], days[-1])
    for routine in desk.routines.all():
        for day in days_of(routine, days[0], days[-1]):
            window = window_of(desk, routine, day)
            if (window is None or window.ends > desk.now) and (routine.id, day) not in done:
                needed[day] += slots_for(routine.minutes)
    left = desk.tasks.open_before(days[0]) if days[0] == today(desk) else ()
    tasks = (*left, *desk.tasks.open_between(days[0], days[-1]))
    learned, spent = ratios(desk, (task.category_id for task in tasks)), minutes_spent(desk, tasks)
    over = {task.id for task in left_over(desk, days[0] + ONE_DAY)}
    for task in tasks:
        day = days[0] + ONE_DAY if task.id in over else max(task.day, days[0])
        if day in needed:
            needed[day] += slots_for(planned_minutes(task, learned[task.category_id], spent.get(task.id, 0)))
    return needed


def _next_quarter(now: datetime) -> datetime:
    """The next full quarter of an hour."""
    past = timedelta(minutes=now.minute % planner.STEP_MINUTES, seconds=now.second, microseconds=now.microsecond)
    return now if not past else now - past + planner.STEP
